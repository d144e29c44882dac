import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { type AdjustmentComparison, compareAdjustments } from '../../src/adjustments/compare-adjustments.ts';
import type { RideEvents, ShiftEvent } from '../../src/shifts/ride-events.ts';
import { madeShift } from '../cogs/made-shift.ts';

const DAY_MS = 86_400_000;
const start = Date.UTC(2026, 3, 1, 8);
const COGS = 12;

interface MadeRide {
  readonly startMs: number;
  readonly durationS: number;
  readonly events: RideEvents;
}

const made = (day: number, shifts: readonly ShiftEvent[]): MadeRide => ({
  startMs: start + day * DAY_MS,
  durationS: 3600,
  events: { shifts, ghostShifts: [], chainDrops: [], skips: [], pedallingSByCog: new Float64Array(COGS) },
});

/** `bad` of 100 shifts late, spread over the middle of the cassette in both directions. */
const ride = (day: number, bad: number): MadeRide =>
  made(
    day,
    Array.from({ length: 100 }, (_, i) => {
      const to = 3 + (i % 6);
      return madeShift(30 * i, i % 2 ? to + 1 : to - 1, to, i < bad ? 'late' : 'clean');
    }),
  );

/** So many shifts onto a cog in a direction, of which so many were missed. */
type Onto = readonly [cog: number, step: 1 | -1, bad: number, of: number];
const rideOnto = (day: number, rows: readonly Onto[]): MadeRide =>
  made(
    day,
    rows
      .flatMap(([cog, step, bad, of]) =>
        Array.from({ length: of }, (_, i) => [cog - step, cog, i < bad ? 'missed' : 'clean'] as const),
      )
      .map(([from, to, outcome], i) => madeShift(20 * i, from, to, outcome)),
  );

const clicks = (day: number): Adjustment => ({
  at: new Date(start + day * DAY_MS - DAY_MS / 2).toISOString(),
  parameter: 'cable-tension',
  amount: 2,
  unit: 'clicks',
  note: '',
});

/** Rides of one day after another with so many late shifts of 100, an adjustment before one of them. */
const compared = (bad: readonly number[], adjustedBefore: number): AdjustmentComparison =>
  compareAdjustments(
    bad.map((one, day) => ride(day, one)),
    [clicks(adjustedBefore)],
    COGS,
  )[0];

describe('trouble that an adjustment took away for a while', () => {
  it('is told with the ride with which it came back', () => {
    const { cameBack } = compared([25, 0, 1, 20, 18], 1);
    expect(cameBack).toEqual({
      fromMs: start + 3 * DAY_MS,
      until: { shifts: 200, trouble: 1 },
      since: { shifts: 200, trouble: 38 },
    });
  });

  it('is not told of trouble that is gone where it was, and there where it was not', () => {
    const outThenIn = (day: number, larger: number, smaller: number): MadeRide =>
      rideOnto(day, [
        [4, 1, larger, 60],
        [4, -1, smaller, 60],
      ]);
    const [one] = compareAdjustments(
      [outThenIn(0, 0, 24), outThenIn(1, 3, 0), outThenIn(2, 14, 0), outThenIn(3, 15, 0)],
      [clicks(1)],
      COGS,
    );
    expect(one.cameBack).toBeNull();
    expect([one.oppositeWays?.better.part, one.oppositeWays?.worse.part]).toEqual(['to-smaller', 'to-larger']);
  });

  it('is not told of a cure that holds, of one that never was, nor of a bike that was sound before', () => {
    for (const bad of [
      [25, 0, 1, 0, 2],
      [25, 22, 24, 20, 25],
      [1, 0, 0, 20, 18],
      [25, 0, 3, 1, 4],
      // plainly more than at first, yet less than half of what it was
      [25, 0, 0, 6, 6],
    ])
      expect(compared(bad, 1).cameBack, String(bad)).toBeNull();
  });
});

describe('trouble that grew before an adjustment', () => {
  it('and went on growing is no harm done by it', () => {
    const grown = compared([0, 5, 3, 6, 13, 15, 16, 21], 5);
    expect(grown.wentOnGrowing).toMatchObject({
      firstBefore: { shifts: 100, trouble: 0 },
      lastBefore: { trouble: 13 },
      firstAfter: { trouble: 15 },
      lastAfter: { trouble: 21 },
    });
    expect(grown.probabilityBetter).toBeGreaterThan(0.3);
    expect(grown.shiftsStillNeeded).toBeNull();
  });

  it('does not excuse a leap, nor one after rides that stayed as they were', () => {
    for (const bad of [
      [0, 5, 3, 6, 9, 40, 42, 45],
      [4, 5, 3, 6, 4, 15, 16, 21],
      [12, 9, 7, 5, 2, 16, 16, 15],
    ]) {
      const leap = compared(bad, 5);
      expect(leap.wentOnGrowing, String(bad)).toBeNull();
      expect(leap.probabilityBetter).toBeLessThan(0.05);
    }
  });
});

describe('two parts that went opposite ways', () => {
  const both = (before: readonly Onto[], after: readonly Onto[]): AdjustmentComparison =>
    compareAdjustments([rideOnto(0, before), rideOnto(1, after)], [clicks(1)], COGS)[0];
  const clean: readonly Onto[] = [5, 6, 7].flatMap((cog): Onto[] => [
    [cog, 1, 0, 30],
    [cog, -1, 0, 30],
  ]);
  const bentBefore: readonly Onto[] = [...clean, [11, 1, 16, 16], [10, 1, 2, 7], [0, -1, 6, 7], [2, -1, 1, 6]];
  const bentAfter: readonly Onto[] = [...clean, [11, 1, 3, 5], [10, 1, 0, 6], [0, -1, 5, 5], [2, -1, 8, 10]];

  it('are told apart, with the cogs that failed, where all shifts together tell nothing', () => {
    const { oppositeWays, probabilityBetter } = both(bentBefore, bentAfter);
    expect(probabilityBetter).toBeGreaterThan(0.05);
    expect(probabilityBetter).toBeLessThan(0.95);
    expect(oppositeWays).toMatchObject({
      better: {
        part: 'to-larger',
        cogs: [10, 11],
        before: { trouble: 18, shifts: 23 },
        after: { trouble: 3, shifts: 11 },
      },
      worse: {
        part: 'to-smaller',
        cogs: [0, 2],
        before: { trouble: 7, shifts: 13 },
        after: { trouble: 13, shifts: 15 },
      },
    });
  });

  it('are found at the two ends of the cassette too', () => {
    const end = (cog: number, bad: number): Onto[] => [
      [cog, 1, bad, 20],
      [cog, -1, bad, 20],
    ];
    const { oppositeWays } = both([...clean, ...end(10, 12), ...end(2, 2)], [...clean, ...end(10, 2), ...end(2, 12)]);
    expect([oppositeWays?.better.part, oppositeWays?.worse.part]).toEqual(['larger-cogs', 'smaller-cogs']);
  });

  it('have no setting between that cures both only where both fail at one, towards opposite ends', () => {
    const none = (before: readonly Onto[], after: readonly Onto[]): boolean | undefined =>
      both([...clean, ...before], [...clean, ...after]).oppositeWays?.noneCuresBoth;
    /** Shifts onto two cogs to larger and two to smaller, so many of 20 onto each missed. */
    const onto = ([larger, badLarger]: Part, [smaller, badSmaller]: Part): Onto[] => [
      ...larger.map((cog): Onto => [cog, 1, badLarger, 20]),
      ...smaller.map((cog): Onto => [cog, -1, badSmaller, 20]),
    ];
    type Part = readonly [cogs: readonly number[], bad: number];
    const [small, large, middle] = [
      [1, 2],
      [9, 10],
      [4, 8],
    ];
    const wentTo = (a: readonly number[], b: readonly number[], bad: readonly [number, number, number, number]) =>
      none(onto([a, bad[0]], [b, bad[1]]), onto([a, bad[2]], [b, bad[3]]));
    expect(none(bentBefore, bentAfter)).toBe(true);
    expect(wentTo(large, small, [12, 4, 4, 12])).toBe(true);
    // only turned past the mark: a slip before is no failing
    expect(wentTo(middle, middle, [8, 1, 0, 8])).toBe(false);
    expect(wentTo(large, small, [8, 1, 0, 8])).toBe(false);
    // both ways at once, but on the same cogs, as friction or a gap may
    expect(wentTo(middle, middle, [12, 4, 4, 12])).toBe(false);
  });

  it('are not made of one part that got better and another that stayed, nor of more riding on the bad cog', () => {
    const at = (bad: number, of: number, other: number): Onto[] => [...clean, [10, 1, bad, of], [2, -1, other, 20]];
    expect(both(at(12, 20, 5), at(1, 20, 6)).oppositeWays).toBeNull();
    expect(both(at(5, 10, 5), at(30, 60, 5)).oppositeWays).toBeNull();
  });
});
