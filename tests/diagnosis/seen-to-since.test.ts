import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import type { Look } from '../../src/adjustments/looks.ts';
import type { DiagnosisRide } from '../../src/diagnosis/diagnosis.ts';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import type { SuggestionFacts } from '../../src/diagnosis/next-step/suggestion-facts.ts';
import { limitsTurnedIn, lookedOver, seenTo } from '../../src/diagnosis/now/looks-that-stand.ts';
import { stepIsAbout } from '../../src/report/words/step-is-about.ts';
import { count, facts, now, seen } from './made-facts.ts';

const looked = (...parameters: Look['parameter'][]): Look[] =>
  parameters.map((parameter) => ({ at: '2026-05-07T12:00:00Z', parameter, unit: 'done' }));

/** A bike in order, but for one chain lost past the largest cog. */
const lostOnce = (foundRight: readonly Look[] = [], done: readonly Look[] = []) =>
  suggest(
    facts({
      ranked: [
        { cause: 'low-limit-loose', probability: 0.56 },
        { cause: 'no-fault', probability: 0.26 },
      ],
      undecided: { between: ['low-limit-loose', 'no-fault'], becauseOf: ['x'], sentence: 'Undecided.' },
      drops: (side) => (side === 'past-largest' ? 1 : 0),
      seen: seen({ all: count(260, 1), events: 1 }),
      now: now({ cause: 'low-limit-loose', keepOff: new Set(['past-largest']) }),
      foundRight,
      seenTo: [...foundRight, ...done],
    }),
  );

describe('a chain lost once on a bike that shifts well', () => {
  it('asks for one step, by the part that is looked at, and finds nothing right that nobody looked at', () => {
    const { steps, parameter, action, verify, namesCause } = lostOnce();
    expect(steps).toEqual([expect.stringMatching(/^Have the hanger gauged, .*; then see on a stand how far/)]);
    expect([parameter, namesCause]).toEqual(['low-limit', false]);
    expect(action).not.toMatch(/found right|Turn nothing|it is not decided/);
    expect(verify).toMatch(/on a stand.* Until it does, keep off that cog/);
  });

  it('keeps the look at the hanger where only the limit was looked at, and the other way round', () => {
    const limit = lostOnce(looked('low-limit'));
    expect(limit.steps).toEqual([
      expect.stringMatching(/^Have the hanger gauged: the chain was lost past the largest/),
    ]);
    expect(limit.parameter).toBe('hanger');
    expect(lostOnce(looked('hanger')).action).toMatch(/^See on a stand how far the low limit screw/);
    expect(lostOnce(looked('low-limit', 'hanger')).action).toMatch(/^Leave the .* as they are: .* spacer/);
  });

  it('takes a hanger that was aligned for one that was looked at', () => {
    expect(lostOnce([], looked('hanger')).action).toMatch(/^See on a stand how far the low limit screw/);
  });

  it('looks for nothing further where the hanger was aligned and the limit found right: that is tried and ridden first', () => {
    const { action, start, verify, parameter } = lostOnce(looked('low-limit'), looked('hanger'));
    expect(action).toBe(
      'Leave the low limit screw as it is: looked at and found right (2026-05-07). The derailleur hanger was aligned or replaced on 2026-05-07, and no chain was lost since: nothing is left but to try it, on a stand first, and to ride.',
    );
    expect(start).toMatch(/^On a stand, .* shift onto the largest cog: the chain should stay on there\.$/);
    expect(verify).toMatch(/make at least \d+ shifts .* would show that the chain is no longer lost past it/);
    expect(parameter).toBe('none');
  });
});

describe('a bent hanger that was seen to', () => {
  const step = (setting: 'same' | 'untested', changes: Partial<SuggestionFacts>, keepOff: 'past-largest'[] = []) => {
    const last = { at: '2026-05-07T12:00:00Z', parameter: 'hanger' } as never;
    const since = { last, seen: seen({ all: count(0, 0) }), lost: () => 0 };
    const cause = 'hanger-bent' as const;
    const { cautions, verify } = suggest(
      facts({
        ranked: [
          { cause, probability: 0.95 },
          { cause: 'cable-tension-low', probability: 0.05 },
        ],
        seen: seen({ all: count(260, 60) }),
        now: now({ cause, fault: cause, setting, since, keepOff: new Set(keepOff) }),
        ...changes,
      }),
    );
    return { verify, keepsOff: cautions.filter((caution) => /keep off/i.test(caution)) };
  };
  const unchecked = /until it is checked/;
  const tried = /keep off the largest cog until it was tried on a stand and stays clear/;

  it('is not spoken of as unchecked where it was aligned and not yet ridden on, or found right', () => {
    const aligned = step('untested', { seenTo: looked('hanger') });
    const right = step('same', { foundRight: looked('hanger') });
    for (const { verify, keepsOff } of [aligned, right]) {
      expect(verify).toMatch(/^Once the derailleur stays clear of the spokes on a stand, on the next ride/);
      expect(keepsOff).toEqual([expect.stringMatching(tried)]);
    }
  });

  it('is as good as unchecked where it was aligned and fails on, and where nobody saw to it', () => {
    for (const { verify, keepsOff } of [step('same', { seenTo: looked('hanger') }), step('untested', {})]) {
      expect(verify).toMatch(/^Once the hanger is in order/);
      expect(keepsOff).toEqual([expect.stringMatching(unchecked)]);
    }
  });

  it('keeps off the largest cog once where the chain was lost past it too', () => {
    expect(step('same', { foundRight: looked('hanger', 'low-limit') }, ['past-largest']).keepsOff).toHaveLength(1);
  });
});

const DAY_MS = 86_400_000;
const at = (day: number): string => new Date(day * DAY_MS).toISOString();
const ride = (day: number, lost: number): DiagnosisRide =>
  ({
    startMs: day * DAY_MS,
    events: { chainDrops: Array.from({ length: lost }, () => ({ timeS: 60, side: 'past-largest' })) },
  }) as unknown as DiagnosisRide;
const hanger = (day: number): Adjustment => ({
  at: at(day),
  parameter: 'hanger',
  amount: null,
  unit: 'done',
  note: '',
});
const limitLook = (day: number): Look => ({ at: at(day), parameter: 'low-limit', unit: 'turns' });

it('heads a step that turns nothing by the part that is looked at before it', () => {
  const wellSince = {
    ...{ at: '2026-05-08T06:00:00.000Z', shifts: 310, trouble: 1, there: { shifts: 40, trouble: 0 } },
    ...{ adjusted: true, putRight: true, entryAt: '2026-05-07T12:00:00Z' },
  };
  const made = (keepOff: readonly ('past-largest' | 'past-smallest')[]) =>
    suggest(facts({ wellSince, now: now({ keepOff: new Set(keepOff) }) }));
  const [looks, turnsNothing] = [made(['past-smallest']), made([])];
  expect([looks.parameter, stepIsAbout(looks)]).toEqual(['none', 'high-limit']);
  expect([turnsNothing.parameter, stepIsAbout(turnsNothing)]).toEqual(['none', null]);
  // what was logged as advised is not doubted for its size
  expect(turnsNothing.start).toBe('Nothing needs to be turned.');
});

describe('what was seen to', () => {
  const rides = [ride(20_000, 1), ride(20_004, 0)];
  const parts = (
    looks: readonly Look[],
    done: readonly Adjustment[],
    ridden = rides,
    beganMs = Number.NEGATIVE_INFINITY,
  ) => seenTo(looks, { rides: ridden, adjustments: done, beganMs }).map((one) => one.parameter);

  it('is what was found right and what was aligned or replaced since the chain was lost', () => {
    expect(parts([], [hanger(20_001)])).toEqual(['hanger']);
    expect(parts([], [hanger(19_999)])).toEqual([]);
    expect(parts([], [hanger(20_001)], [...rides, ride(20_002, 1)])).toEqual([]);
    expect(parts([], [{ ...hanger(20_001), parameter: 'low-limit', amount: 0.25, unit: 'turns' }])).toEqual([]);
  });

  it('is looked at again where a fault began suddenly since', () => {
    const beganAt = (day: number) => parts([limitLook(20_002)], [hanger(20_001)], rides, Date.parse(at(day)));
    expect([beganAt(20_000), beganAt(20_002), beganAt(20_003)]).toEqual([['hanger', 'low-limit'], [], []]);
  });

  it('keeps a look at the limit that is logged with the hanger, which comes first, but not one before it', () => {
    expect(parts([limitLook(20_001)], [hanger(20_001)])).toEqual(['low-limit', 'hanger']);
    expect(parts([limitLook(20_001)], [hanger(20_002)])).toEqual(['hanger']);
  });

  it('knows a limit that was turned in since, until it is turned out again or the chain is lost', () => {
    const turn = (day: number, amount: number): Adjustment => ({
      ...{ ...hanger(day), parameter: 'low-limit', amount, unit: 'turns' },
    });
    const turnedIn = (done: readonly Adjustment[], ridden = rides) =>
      limitsTurnedIn({ rides: ridden, adjustments: done, beganMs: Number.NEGATIVE_INFINITY }).map(
        ({ parameter }) => parameter,
      );
    expect(turnedIn([turn(20_001, 0.25)])).toEqual(['low-limit']);
    expect(turnedIn([turn(20_001, 0.25), turn(20_002, -0.25)])).toEqual([]);
    expect(turnedIn([turn(20_001, -0.25)])).toEqual([]);
    expect(turnedIn([turn(20_001, 0.25)], [...rides, ride(20_002, 1)])).toEqual([]);
    expect(turnedIn([{ ...turn(20_001, 2), parameter: 'cable-tension', unit: 'clicks' }])).toEqual([]);
  });

  it('covers an end once both limit and hanger are among it', () => {
    const over = (...given: Look['parameter'][]) => lookedOver(looked(...given), rides);
    expect(over('low-limit', 'hanger')).toEqual(['past-largest']);
    expect([over('low-limit'), over('hanger'), over('high-limit', 'hanger')]).toEqual([[], [], []]);
    expect(lookedOver(looked('low-limit', 'hanger'), [ride(20_000, 0)])).toEqual([]);
  });
});
