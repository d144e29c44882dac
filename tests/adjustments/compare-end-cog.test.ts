import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { compareAdjustments } from '../../src/adjustments/compare-adjustments.ts';
import { countEndCog } from '../../src/adjustments/end-cog-count.ts';
import type { Outcome, RideEvents } from '../../src/shifts/ride-events.ts';
import { madeShift } from '../cogs/made-shift.ts';

const DAY_MS = 86_400_000;
const start = Date.UTC(2026, 3, 1, 8);
const COGS = 5;

/** A ride with shifts onto the largest of five cogs, 40 clean ones in the middle of the cassette, and chains lost past the largest. */
function ride(
  day: number,
  ontoLargest: readonly Outcome[],
  lost = 0,
): { startMs: number; durationS: number; events: RideEvents } {
  const shifts = [
    ...ontoLargest.map((outcome, i) => madeShift(60 * i, 3, 4, outcome)),
    ...Array.from({ length: 40 }, (_, i) => madeShift(5000 + 60 * i, 1, 2, 'clean')),
  ];
  const drop = (i: number) => ({ timeS: 60 * i + 3, side: 'past-largest', afterShiftTo: 4, confidence: 0.9 }) as const;
  return {
    startMs: start + day * DAY_MS,
    durationS: 7400,
    events: {
      ...{ shifts, ghostShifts: [], skips: [] },
      chainDrops: Array.from({ length: lost }, (_, i) => drop(i)),
      pedallingSByCog: new Float64Array(COGS),
    },
  };
}

const turned = (parameter: Adjustment['parameter'], amount: number): Adjustment => ({
  at: new Date(start + DAY_MS / 2).toISOString(),
  ...{ parameter, amount, unit: 'turns', note: '' },
});
const clean = (count: number): Outcome[] => Array(count).fill('clean');
const compare = (rides: ReturnType<typeof ride>[], made: Adjustment) => compareAdjustments(rides, [made], COGS)[0];
const loose = ride(0, ['clean', 'missed'], 1);

describe('a limit screw', () => {
  it.each([0.25, 0.5, 1, 2, 3])(
    'turned in by %d turns helped once the chain stays on, however far that moves it',
    (amount) => {
      const made = compare([loose, ride(1, clean(38))], turned('low-limit', amount));
      expect(made.endCog).toEqual({
        end: 'past-largest',
        before: { asked: 2, shifts: 2, reached: 2, trouble: 1, lost: 1 },
        after: { asked: 38, shifts: 38, reached: 38, trouble: 0, lost: 0 },
      });
      expect(made.probabilityBetter).toBeGreaterThan(0.95);
      expect(made.shiftsStillNeeded).toBe(0);
      // all shifts together would not tell
      expect([made.before.shifts, made.after.shifts]).toEqual([42, 78]);
    },
  );

  it('is not decided after a shift or none onto its end cog, and asks for as many more as will tell', () => {
    const [none, one] = [0, 1].map((count) => compare([loose, ride(1, clean(count))], turned('low-limit', 0.25)));
    expect(none.probabilityBetter).toBe(0.5);
    expect(one.probabilityBetter).toBeGreaterThan(0.5);
    expect(one.probabilityBetter).toBeLessThan(0.7);
    expect((none.shiftsStillNeeded ?? 0) - (one.shiftsStillNeeded ?? 0)).toBe(1);
  });

  it('is not credited with what a turn the other way cannot do', () => {
    const made = compare([loose, ride(1, clean(38))], turned('low-limit', -0.5));
    expect(made.probabilityBetter).toBeLessThan(0.95);
  });

  it('did not help where the chain is lost since, nor where its cog is hardly reached any more', () => {
    const lost = compare([loose, ride(1, [...clean(10), 'missed'], 5)], turned('low-limit', 1));
    expect(lost.probabilityBetter).toBeLessThan(0.9);
    // one lost since is weighed by its rate: a limit that plainly loses fewer may have helped, though it does not hold
    const fewer = compare([ride(0, clean(10), 10), ride(1, clean(60), 1)], turned('low-limit', 1));
    expect(fewer.probabilityBetter).toBeGreaterThan(0.95);
    expect(fewer.shiftsStillNeeded).toBe(0);
    const tight = compare([ride(0, clean(30), 1), ride(1, Array(20).fill('missed'))], turned('low-limit', 3));
    expect(tight.probabilityBetter).toBeLessThan(0.05);
  });

  it('that stopped the derailleur short is judged by late and missed shifts onto its cog', () => {
    const made = compare([ride(0, Array(12).fill('missed')), ride(1, clean(14))], turned('low-limit', -1));
    expect(made.probabilityBetter).toBeGreaterThan(0.99);
  });

  it('of the other end is judged there, and no other part by an end cog', () => {
    const rides = [loose, ride(1, clean(38))];
    expect(compare(rides, turned('high-limit', 1)).endCog).toMatchObject({ end: 'past-smallest', after: { asked: 0 } });
    expect(compare(rides, turned('pulley-gap', 1)).endCog).toBeNull();
  });
});

describe('a chain lost between two turns of its limit, on a test ride of which no shift is judged', () => {
  /** The same ride mirrored: onto the smallest cog, chains lost past it. */
  const mirrored = (one: ReturnType<typeof ride>): ReturnType<typeof ride> => ({
    ...one,
    events: {
      ...one.events,
      shifts: one.events.shifts.map(({ timeS, fromCog, toCog, outcome }) =>
        madeShift(timeS, COGS - 1 - fromCog, COGS - 1 - toCog, outcome),
      ),
      chainDrops: one.events.chainDrops.map((drop) => ({ ...drop, side: 'past-smallest', afterShiftTo: 0 })),
    },
  });
  const testRide = (lost: number) => {
    const { events, ...when } = ride(1, ['unjudged'], lost);
    return { ...when, events: { ...events, shifts: events.shifts.slice(0, 1) } };
  };
  const rides = (lost: number) => [
    ride(0, [...clean(4), ...Array(8).fill('missed')]),
    testRide(lost),
    ride(2, clean(30)),
  ];
  const twice = (parameter: Adjustment['parameter'], second = parameter): Adjustment[] => [
    turned(parameter, -1),
    { ...turned(second, 0.5), at: new Date(start + 1.5 * DAY_MS).toISOString() },
  ];

  it.each(['low-limit', 'high-limit'] as const)('is told of the turn that let it go: %s', (screw) => {
    const low = screw === 'low-limit';
    const [out, back] = compareAdjustments(low ? rides(1) : rides(1).map(mirrored), twice(screw), COGS);
    expect(out.endCog?.after).toMatchObject({ asked: 1, shifts: 1, lost: 1 });
    expect([out.sharedPeriod, back.sharedPeriod, back.group - out.group]).toEqual([false, false, 1]);
    // the turn back is judged by whether the limit holds the chain now, not by the shifts missed before it was opened
    expect(back.endCog).toMatchObject({ before: { lost: 1, trouble: 0 }, after: { reached: 30, lost: 0 } });
    expect(back.probabilityBetter).toBeGreaterThan(0.95);
  });

  it('parts nothing where none was lost, or neither of the two is for that end', () => {
    const groups = (lost: number, made: Adjustment[]) =>
      compareAdjustments(rides(lost), made, COGS).map(({ group }) => group);
    expect(groups(1, twice('low-limit'))).toEqual([0, 1]);
    expect(groups(1, twice('cable-tension', 'low-limit'))).toEqual([0, 1]);
    expect(groups(0, twice('low-limit'))).toEqual([0, 0]);
    expect(groups(1, twice('high-limit'))).toEqual([0, 0]);
    expect(groups(1, twice('cable-tension'))).toEqual([0, 0]);
  });
});

it('a limit screwed in twice is proved by all shifts since the first turn, one opened twice by those since the last', () => {
  const second = (made: Adjustment): Adjustment => ({ ...made, at: new Date(start + 1.5 * DAY_MS).toISOString() });
  const together = (amount: number, rides: ReturnType<typeof ride>[]) => {
    const made = turned('low-limit', amount);
    return compareAdjustments(rides, [made, second(made)], COGS)[1].together;
  };
  const rides = [ride(0, clean(4), 3), ride(1, clean(2)), ride(2, clean(3))];
  expect(together(0.25, rides)?.endCog).toMatchObject({ before: { lost: 3 }, after: { reached: 5, lost: 0 } });
  const short = [ride(0, [...clean(8), 'late', 'late']), ride(1, [...clean(8), 'late']), ride(2, clean(9))];
  expect(together(-0.25, short)?.endCog).toMatchObject({ before: { trouble: 2 }, after: { shifts: 9, trouble: 0 } });
});

it('counts a lost chain once, judged a missed shift or not at all', () => {
  const count = (outcomes: Outcome[], lost: number) =>
    countEndCog(ride(0, outcomes, lost).events, 'past-largest', COGS);
  expect(count(['clean', 'missed'], 1)).toEqual({ asked: 2, shifts: 2, reached: 2, trouble: 1, lost: 1 });
  expect(count(['clean', 'unjudged'], 1)).toEqual({ asked: 2, shifts: 2, reached: 2, trouble: 0, lost: 1 });
  expect(count(['unjudged', 'unjudged'], 0)).toEqual({ asked: 2, shifts: 0, reached: 0, trouble: 0, lost: 0 });
  expect(count([], 2)).toEqual({ asked: 2, shifts: 2, reached: 2, trouble: 0, lost: 2 });
});

it('counts a missed shift as one that never reached the cog, a late one as one that did', () => {
  const count = countEndCog(ride(0, ['clean', 'late', 'missed', 'missed'], 0).events, 'past-largest', COGS);
  expect(count).toEqual({ asked: 4, shifts: 4, reached: 2, trouble: 3, lost: 0 });
});

describe('a hanger that was aligned or replaced', () => {
  const hanger: Adjustment = { ...turned('low-limit', 0), parameter: 'hanger', amount: null, unit: 'done' };

  it('is judged by the end cog past which the chain was lost, where all shifts do not decide', () => {
    const held = compare([loose, ride(1, clean(38))], hanger);
    expect([held.endCog?.end, held.endCog?.before.lost, held.endCog?.after.shifts]).toEqual(['past-largest', 1, 38]);
    expect(held.probabilityBetter).toBeGreaterThan(0.95);
    expect(compare([loose, ride(1, clean(3), 1)], hanger).probabilityBetter).toBeLessThan(0.7);
  });

  it('is judged by all shifts where no chain was lost, or where they decide', () => {
    expect(compare([ride(0, ['clean', 'missed']), ride(1, clean(38))], hanger).endCog).toBeNull();
    const poor = ride(0, [...Array<Outcome>(30).fill('late'), 'missed'], 1);
    const decided = compare([poor, ride(1, clean(38))], hanger);
    expect([decided.endCog, decided.probabilityBetter > 0.99]).toEqual([null, true]);
  });
});
