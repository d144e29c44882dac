import { expect, it } from 'vitest';
import { oppositeWays } from '../../src/adjustments/opposite-ways.ts';
import { tallyTrouble } from '../../src/cogs/trouble-tally.ts';
import type { Direction } from '../../src/shifts/ride-events.ts';
import { madeShift } from '../cogs/made-shift.ts';

/** Forty shifts onto a cog, so many of them missed. */
const tally = (bad: number, cog: number) =>
  tallyTrouble({
    shifts: Array.from({ length: 40 }, (_, i) => madeShift(i, 1, cog, i < bad ? 'missed' : 'clean')),
    ghostShifts: [],
  });
const row = (cog: number, direction: Direction, before: number, after: number) => ({
  ...{ cog, direction, before: tally(before, cog), after: tally(after, cog), probabilityBetter: 0.5 },
});
/** Shifts to larger cogs that got better on one cog of five, and to smaller ones that got as much worse on the smallest. */
const rows = (betterCog: number) => [
  ...[row(betterCog, 'to-larger', 12, 4), row(0, 'to-smaller', 4, 12)],
  row(4, 'to-larger', 0, 0),
];

it('are told of plainer parts only where all shifts together have decided', () => {
  // each part is 0.985 sure
  expect(oppositeWays(rows(3), 5, 0.5)?.better.part).toBe('to-larger');
  expect(oppositeWays(rows(3), 5, 0.99)).toBeNull();
});

it('no setting cures both where they fail in different halves of the cogs ridden, not where one fails in the middle', () => {
  expect(oppositeWays(rows(3), 5, 0.5)?.noneCuresBoth).toBe(true);
  expect(oppositeWays(rows(2), 5, 0.5)?.noneCuresBoth).toBe(false);
});
