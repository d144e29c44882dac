import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { adjustmentPeriods } from '../../src/adjustments/adjustment-periods.ts';
import { compareAdjustments } from '../../src/adjustments/compare-adjustments.ts';
import { compareEndCog } from '../../src/adjustments/compare-end-cog.ts';
import { probabilityBetter } from '../../src/adjustments/compare-rates.ts';
import { helpedForSure } from '../../src/adjustments/helped-for-sure.ts';
import { oppositeWays } from '../../src/adjustments/opposite-ways.ts';
import { tallyTrouble } from '../../src/cogs/trouble-tally.ts';
import type { ChainDropEvent, Direction, Outcome, ShiftEvent } from '../../src/shifts/ride-events.ts';
import { madeShift } from '../cogs/made-shift.ts';

const DAY_MS = 86_400_000;
const start = Date.UTC(2026, 3, 1, 8);

const ride = (day: number, shifts: readonly ShiftEvent[], chainDrops: readonly ChainDropEvent[] = []) => ({
  startMs: start + day * DAY_MS,
  durationS: 60 * shifts.length,
  events: { shifts, chainDrops, ghostShifts: [], skips: [], pedallingSByCog: new Float64Array(4) },
});
const made = (day: number, parameter: Adjustment['parameter'], amount: number | null): Adjustment => ({
  at: new Date(start + day * DAY_MS + DAY_MS / 2).toISOString(),
  ...{ parameter, amount, unit: parameter === 'cable-tension' ? 'clicks' : 'turns', note: '' },
});
/** `bad` of `count` shifts one way missed, and `badBack` of as many the other way. */
const bothWays = (count: number, bad: number, badBack: number): ShiftEvent[] =>
  Array.from({ length: 2 * count }, (_, i) => {
    const [from, to] = i % 2 ? [2, 1] : [1, 2];
    return madeShift(60 * i, from, to, i / 2 < (i % 2 ? badBack : bad) ? 'missed' : 'clean');
  });
const lost = (side: ChainDropEvent['side'], timeS = 30): ChainDropEvent => ({
  ...{ timeS, side, afterShiftTo: null, confidence: 1 },
});

describe('turns of one setting', () => {
  it('are weighed together at the last of them alone', () => {
    const rides = [0, 2, 4, 6].map((day) => ride(day, bothWays(10, 1, 1)));
    const turns = [1, 3, 5].map((day) => made(day, 'cable-tension', -1));
    expect(compareAdjustments(rides, turns, 4).map(({ together }) => together?.fromAt ?? null)).toEqual([
      ...[null, null],
      turns[0].at,
    ]);
  });

  it('are no success together where one direction got better and the other worse', () => {
    const rides = [ride(0, bothWays(60, 30, 0)), ride(2, bothWays(1, 0, 0)), ride(4, bothWays(60, 0, 15))];
    const [, last] = compareAdjustments(rides, [made(1, 'cable-tension', -1), made(3, 'cable-tension', -1)], 4);
    expect(last.oppositeWays).toBeNull();
    expect(last.together).toBeNull();
  });

  it('are followed by the next turn of the same, whatever was done beside it', () => {
    const rides = [0, 2, 4].map((day) => ride(day, bothWays(10, 1, 1)));
    const next = [made(3, 'pulley-gap', 1), made(3.1, 'cable-tension', -1)];
    const [first] = compareAdjustments(rides, [made(1, 'cable-tension', 1), ...next], 4);
    expect(first.followedBy?.parameter).toBe('cable-tension');
  });
});

it('a chain lost past the end of a limit that was turned before parts it from what was done after', () => {
  const after = ride(1, [], [lost('past-largest')]);
  const work = [made(0, 'low-limit', 0.5), made(2, 'pulley-gap', 1)];
  expect(adjustmentPeriods([after], work).groups.map(({ adjustments }) => adjustments.length)).toEqual([1, 1]);
  const other = ride(1, [], [lost('past-smallest')]);
  expect(adjustmentPeriods([other], work).groups).toHaveLength(1);
});

it('a hanger is judged by the end past which most chains were lost', () => {
  const chainDrops = [lost('past-largest', 10), ...[20, 30, 40].map((timeS) => lost('past-smallest', timeS))];
  const quiet = { shifts: [], commanded: [], chainDrops: [] };
  const events = [{ ...quiet, chainDrops }, quiet] as unknown as Parameters<typeof compareEndCog>[1];
  expect(compareEndCog({ parameter: 'hanger', amount: null }, events, 5)?.end).toBe('past-smallest');
});

it('on a bike that mostly fails the prior of both rates is flat: one more failure leaves 21 to 2', () => {
  // P(Beta(21, 1) > Beta(2, 1)) = 21 / 23
  expect(probabilityBetter({ trouble: 20, shifts: 20 }, { trouble: 1, shifts: 1 })).toBeCloseTo(21 / 23, 3);
});

it('of two pairs that went opposite ways the surer is told', () => {
  const tally = (bad: number, cog: number) =>
    tallyTrouble({
      shifts: Array.from({ length: 40 }, (_, i) => madeShift(i, 1, cog, (i < bad ? 'missed' : 'clean') as Outcome)),
      ghostShifts: [],
    });
  const row = (cog: number, direction: Direction, before: number, after: number) => ({
    ...{ cog, direction, before: tally(before, cog), after: tally(after, cog), probabilityBetter: 0.5 },
  });
  const rows = [
    row(3, 'to-larger', 20, 0),
    row(2, 'to-smaller', 8, 0),
    row(0, 'to-smaller', 0, 20),
    row(1, 'to-larger', 0, 6),
  ];
  const found = oppositeWays(rows, 4, 0.5);
  expect([found?.better.part, found?.worse.part]).toEqual(['larger-cogs', 'smaller-cogs']);
});

it('what made one part better and another worse did not help for sure', () => {
  expect(helpedForSure({ probabilityBetter: 0.99 })).toBe(true);
  expect(helpedForSure({ probabilityBetter: 0.99, oppositeWays: {} })).toBe(false);
});
