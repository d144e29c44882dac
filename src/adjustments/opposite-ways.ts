import { stratifiedFewer } from '../numeric/stratified-fewer.ts';
import type { CogComparison } from './compare-cogs.ts';
import { DECIDED_AT, type TroubleCount } from './compare-rates.ts';
import { troubleOf } from './trouble-of.ts';

/** Parts of the shifts that an adjustment can change each its own way: a direction, or the cogs of one half of the cassette. */
export type ShiftsPart = 'to-larger' | 'to-smaller' | 'larger-cogs' | 'smaller-cogs';

/** One part, counted on the cogs (cassette indices) that failed in it before or after. */
export interface PartComparison {
  readonly part: ShiftsPart;
  readonly cogs: readonly number[];
  readonly before: TroubleCount;
  readonly after: TroubleCount;
  /** Each cog compared with itself, so that it does not matter which of them were ridden more. */
  readonly probabilityBetter: number;
}

/** Two parts of which an adjustment made one better and the other worse. */
export interface OppositeWays {
  readonly better: PartComparison;
  readonly worse: PartComparison;
}

type InPart = (row: CogComparison, cassetteLength: number) => boolean;
const parts: Readonly<Record<ShiftsPart, InPart>> = {
  'to-larger': ({ direction }) => direction === 'to-larger',
  'to-smaller': ({ direction }) => direction === 'to-smaller',
  'larger-cogs': ({ cog }, cassetteLength) => cog >= cassetteLength / 2,
  'smaller-cogs': ({ cog }, cassetteLength) => cog < cassetteLength / 2,
};
const pairs: readonly (readonly [ShiftsPart, ShiftsPart])[] = [
  ['to-larger', 'to-smaller'],
  ['larger-cogs', 'smaller-cogs'],
];

/** Where all shifts together have decided already, what goes against them must be plainer. An assumption of ours. */
const AGAINST_ALL = 0.99;

function comparePart(part: ShiftsPart, rows: readonly CogComparison[], cassetteLength: number): PartComparison {
  const own = rows
    .filter((row) => parts[part](row, cassetteLength))
    .map(({ cog, before, after }) => ({ cog, before: troubleOf(before), after: troubleOf(after) }))
    .filter(({ before, after }) => before.trouble + after.trouble > 0);
  const sum = (when: 'before' | 'after', what: keyof TroubleCount): number =>
    own.reduce((total, row) => total + row[when][what], 0);
  return {
    part,
    cogs: [...new Set(own.map(({ cog }) => cog))],
    before: { trouble: sum('before', 'trouble'), shifts: sum('before', 'shifts') },
    after: { trouble: sum('after', 'trouble'), shifts: sum('after', 'shifts') },
    probabilityBetter: stratifiedFewer(
      own.map(({ before, after }) => ({
        before: { bad: before.trouble, of: before.shifts },
        after: { bad: after.trouble, of: after.shifts },
      })),
    ),
  };
}

/**
 * The two directions, or the two halves of the cassette, where an adjustment made one better and the other worse: over all shifts the two
 * can cancel out. Null where there are none.
 *
 * @param allBetter probability that all shifts together got better
 */
export function oppositeWays(
  rows: readonly CogComparison[],
  cassetteLength: number,
  allBetter: number,
): OppositeWays | null {
  const decided = allBetter >= DECIDED_AT || allBetter <= 1 - DECIDED_AT;
  const least = decided ? AGAINST_ALL : DECIDED_AT;
  const found = pairs
    .map((pair) =>
      pair
        .map((part) => comparePart(part, rows, cassetteLength))
        .sort((a, b) => b.probabilityBetter - a.probabilityBetter),
    )
    .map(([better, worse]) => ({
      better,
      worse,
      sure: Math.min(better.probabilityBetter, 1 - worse.probabilityBetter),
    }))
    .filter(({ sure }) => sure >= least)
    .sort((a, b) => b.sure - a.sure)
    .at(0);
  return found ? { better: found.better, worse: found.worse } : null;
}
