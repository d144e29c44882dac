import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { adjustmentPeriods } from '../../src/adjustments/adjustment-periods.ts';
import { compareAdjustments } from '../../src/adjustments/compare-adjustments.ts';
import { probabilityBetter, shiftsStillNeeded } from '../../src/adjustments/compare-rates.ts';
import { madeTogether } from '../../src/adjustments/made-together.ts';
import type { RideEvents } from '../../src/shifts/ride-events.ts';
import { madeShift } from '../cogs/made-shift.ts';

const DAY_MS = 86_400_000;
const start = Date.UTC(2026, 3, 1, 8);

/** `bad` of `count` shifts missed, alternately to-larger onto cog 2 and to-smaller onto cog 1, one a minute. */
function ride(day: number, count: number, bad: number): { startMs: number; durationS: number; events: RideEvents } {
  const shifts = Array.from({ length: count }, (_, i) =>
    madeShift(60 * i, i % 2 ? 2 : 1, i % 2 ? 1 : 2, i < bad ? 'missed' : 'clean'),
  );
  const ghost = { timeS: 30, fromCog: 2, toCog: 1, heldS: 2, confidence: 1, torqueNm: 0 };
  return {
    startMs: start + day * DAY_MS,
    durationS: 60 * count,
    events: { shifts, ghostShifts: [ghost], chainDrops: [], skips: [], pedallingSByCog: new Float64Array(4) },
  };
}

const adjusted = (day: number, amount = 1): Adjustment => ({
  at: new Date(start + day * DAY_MS + DAY_MS / 2).toISOString(),
  parameter: 'cable-tension',
  amount,
  unit: 'clicks',
  note: '',
});

describe('before and after an adjustment', () => {
  it('counts only the rides between this and the neighbouring adjustments', () => {
    const rides = [ride(4, 40, 1), ride(0, 30, 20), ride(2, 50, 10)];
    const [first, second] = compareAdjustments(rides, [adjusted(3), adjusted(1)], 4);
    expect(first).toMatchObject({
      before: { shifts: 30, missed: 20, ghostShifts: 1 },
      after: { shifts: 50, missed: 10 },
    });
    expect(second).toMatchObject({ before: { shifts: 50, missed: 10 }, after: { shifts: 40, missed: 1 } });
    expect(first.probabilityBetter).toBeGreaterThan(0.99);
    expect(first.shiftsStillNeeded).toBe(0);
    expect(second.cogs.map(({ cog, direction }) => [cog, direction])).toEqual([
      [1, 'to-smaller'],
      [2, 'to-larger'],
    ]);
    expect(second.cogs[1].after.shifts).toBe(20);
    expect(first.sharedPeriod).toBe(false);
  });

  it('cuts a ride in which the bike was adjusted', () => {
    const during: Adjustment = { ...adjusted(0), at: new Date(start + 10 * 60_000 + 1).toISOString() };
    const [comparison] = compareAdjustments([ride(0, 30, 5)], [during], 4);
    expect(comparison.before.shifts).toBe(11);
    expect(comparison.after.shifts).toBe(19);
  });

  it('counts a shift at its very moment as one after it, as does what shares its periods', () => {
    const [asked, again] = [10, 20].map(
      (minute): Adjustment => ({
        ...adjusted(0),
        at: new Date(start + minute * 60_000).toISOString(),
      }),
    );
    const { periods } = adjustmentPeriods([ride(0, 30, 5)], [asked, again]);
    expect(periods.map(({ shifts }) => shifts.map(({ timeS }) => timeS / 60)).map((at) => [at[0], at.length])).toEqual([
      [0, 10],
      [10, 10],
      [20, 10],
    ]);
    // one shift between two adjustments, at the moment of the first, parts them; one at the moment of the second does not
    const groupsOf = (minutes: readonly number[]): number =>
      adjustmentPeriods(
        [{ ...ride(0, 1, 0), startMs: Date.parse(asked.at) }],
        minutes.map((minute) => ({
          ...asked,
          at: new Date(start + minute * 60_000).toISOString(),
        })),
      ).groups.length;
    expect(groupsOf([10, 12])).toBe(2);
    expect(groupsOf([8, 10])).toBe(1);
  });

  it('sets no sound riding before a sudden fault against an adjustment that came after it', () => {
    const rides = [ride(0, 40, 0), ride(2, 30, 10), ride(4, 30, 10)];
    const [fair] = compareAdjustments(rides, [adjusted(3)], 4, start + 2 * DAY_MS);
    expect(fair.before).toMatchObject({ shifts: 30, missed: 10 });
    expect(fair.leftOut).toEqual({ before: 40, after: 0 });
    const [unfair] = compareAdjustments(rides, [adjusted(3)], 4);
    expect(unfair.before.shifts).toBe(70);
    expect(fair.probabilityBetter).toBeGreaterThan(2 * unfair.probabilityBetter);
    // a fault that began after the last judged shift of a period leaves it whole
    const [whole] = compareAdjustments(rides, [adjusted(3)], 4, start + 3 * DAY_MS);
    expect(whole.before.shifts).toBe(70);
  });

  it('sets no sudden fault against an adjustment that came before it', () => {
    const rides = [ride(0, 60, 12), ride(2, 60, 0), ride(4, 60, 50)];
    const [cured] = compareAdjustments(rides, [adjusted(1)], 4, start + 4 * DAY_MS);
    expect(cured.after).toMatchObject({ shifts: 60, missed: 0 });
    expect(cured.leftOut).toEqual({ before: 0, after: 60 });
    expect(cured.probabilityBetter).toBeGreaterThan(0.999);
    // trouble that began with the first shifts after the adjustment may be its own work
    const [spoilt] = compareAdjustments([rides[1], rides[2]], [adjusted(3)], 4, start + 4 * DAY_MS + 5 * 60_000);
    expect(spoilt.after.shifts).toBe(60);
    expect(spoilt.probabilityBetter).toBeLessThan(0.01);
  });

  it('leaves out rides without a clock: a log that counts from its own start, a recorder never set', () => {
    const undated = [12_000, Date.UTC(1989, 11, 31)].map((startMs) => ({ ...ride(0, 40, 4), startMs }));
    const [comparison] = compareAdjustments([ride(0, 30, 5), ...undated], [adjusted(1)], 4);
    expect(comparison).toMatchObject({ before: { shifts: 30 }, after: { shifts: 0 } });
  });

  it('lets two adjustments with no ride between share before and after', () => {
    const both = compareAdjustments([ride(0, 30, 9), ride(3, 30, 0)], [adjusted(1), adjusted(2, -2)], 4);
    expect(both).toHaveLength(2);
    for (const one of both)
      expect(one).toMatchObject({ sharedPeriod: true, before: { shifts: 30 }, after: { shifts: 30 } });
  });

  it('tells adjustments made together from others, also where every ride was alike', () => {
    const rides = [0, 2, 4].map((day) => ride(day, 20, 0));
    const made = compareAdjustments(rides, [adjusted(1), adjusted(1.1), adjusted(3), adjusted(3.1)], 4);
    expect(made.map(({ sharedPeriod }) => sharedPeriod)).toEqual([true, true, true, true]);
    expect(madeTogether(made).map((one) => one.map(({ at }) => at.slice(0, 10)))).toEqual([
      ['2026-04-02', '2026-04-02'],
      ['2026-04-04', '2026-04-04'],
    ]);
  });

  describe('several turns the same way', () => {
    const rides = [ride(0, 480, 13), ride(2, 150, 1), ride(4, 144, 0)];
    const last = (...made: Adjustment[]) => compareAdjustments(rides, made, 4).at(-1);

    it('are weighed together where the last does not tell: the riding before the first against that since the last', () => {
      const made = last(adjusted(1, -2), adjusted(3, -5));
      expect(made?.probabilityBetter).toBeLessThan(0.95);
      expect(made?.together).toMatchObject({
        ...{ fromAt: adjusted(1).at, before: { shifts: 480, missed: 13 }, after: { shifts: 144, missed: 0 } },
        ...{ endCog: null, shiftsStillNeeded: 0 },
      });
      expect(made?.together?.probabilityBetter).toBeGreaterThan(0.95);
      const [first] = compareAdjustments(rides, [adjusted(1, -2), adjusted(3, -5)], 4);
      expect(first.together).toBeNull();
      expect(first.followedBy).toEqual({ at: adjusted(3).at, parameter: 'cable-tension', amount: -5 });
      expect(made?.followedBy).toBeNull();
    });

    it('are not where they went opposite ways, other work was done with or between them, or the last tells by itself', () => {
      expect(last(adjusted(1, 2), adjusted(3, -5))?.together).toBeNull();
      const other = { ...adjusted(1.1), parameter: 'pulley-gap', unit: 'turns' } as const;
      expect(last(adjusted(1, -2), other, adjusted(3, -5))?.together).toBeNull();
      expect(last(adjusted(1, -2), { ...other, at: adjusted(3).at })?.together).toBeNull();
      const plain = compareAdjustments(
        [ride(0, 90, 9), ride(2, 90, 30), ride(4, 90, 0)],
        [adjusted(1), adjusted(3)],
        4,
      );
      expect(plain[1].together).toBeNull();
    });
  });

  it('knows nothing where there is nothing to compare', () => {
    const [comparison] = compareAdjustments([ride(0, 30, 9)], [adjusted(1)], 4);
    expect(comparison).toMatchObject({
      probabilityBetter: 0.5,
      after: { shifts: 0, troubleRate: Number.NaN, low: 0, high: 1 },
    });
    expect(comparison.shiftsStillNeeded).toBeGreaterThan(3);
    expect(comparison.shiftsStillNeeded).toBeLessThan(60);
    const [early] = compareAdjustments([ride(2, 30, 9)], [adjusted(1)], 4);
    expect(early).toMatchObject({ probabilityBetter: 0.5, shiftsStillNeeded: null });
    expect(compareAdjustments([], [], 4)).toEqual([]);
  });

  it('cannot place a ride without a clock', () => {
    const placed = adjustmentPeriods([{ ...ride(0, 10, 1), startMs: 0 }], [adjusted(1)]);
    expect(placed.periods.map((period) => period.shifts.length)).toEqual([0, 0]);
  });
});

describe('probability that it got better', () => {
  it('is about a half when both went alike, also with few shifts after', () => {
    expect(probabilityBetter({ trouble: 10, shifts: 100 }, { trouble: 10, shifts: 100 })).toBeCloseTo(0.5, 1);
    expect(probabilityBetter({ trouble: 1, shifts: 50 }, { trouble: 0, shifts: 3 })).toBeGreaterThan(0.35);
    expect(probabilityBetter({ trouble: 1, shifts: 50 }, { trouble: 0, shifts: 3 })).toBeLessThan(0.65);
  });

  it('rises as trouble before grows, and never leaves 0 to 1', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 80 }),
        fc.integer({ min: 1, max: 80 }),
        fc.nat(40),
        (before, after, bad) => {
          const badAfter = Math.min(bad, after);
          const p = Array.from({ length: before + 1 }, (_, trouble) =>
            probabilityBetter({ trouble, shifts: before }, { trouble: badAfter, shifts: after }),
          );
          return p.every((value, i) => value >= 0 && value <= 1 && (i === 0 || value >= p[i - 1] - 0.02));
        },
      ),
      { numRuns: 25 },
    );
  });

  it('needs fewer further shifts the clearer the change', () => {
    const clear = shiftsStillNeeded({ trouble: 15, shifts: 50 }, { trouble: 0, shifts: 4 });
    const faint = shiftsStillNeeded({ trouble: 4, shifts: 50 }, { trouble: 0, shifts: 4 });
    expect(clear).toBeLessThan(faint ?? Number.POSITIVE_INFINITY);
    expect(shiftsStillNeeded({ trouble: 5, shifts: 100 }, { trouble: 5, shifts: 100 })).toBeNull();
  });
});
