import { sum } from 'd3-array';
import { stratifiedFewer } from '../numeric/stratified-fewer.ts';
import type { CogComparison } from './compare-cogs.ts';
import { DECIDED_AT, isDecided, type TroubleCount } from './compare-rates.ts';
import { failsForSure } from './fails-for-sure.ts';
import { troubleOf } from './trouble-of.ts';

/** Parts of the shifts that an adjustment can change each its own way: a direction, or the cogs of one half of the cassette. */
export type ShiftsPart = 'to-larger' | 'to-smaller' | 'larger-cogs' | 'smaller-cogs';

/** One part, counted on the cogs (cassette indices) that failed in it before or after. */
export interface PartComparison {
  readonly part: ShiftsPart;
  readonly cogs: readonly number[];
  /** Where its trouble lies on average, as a cassette index. */
  readonly centreCog: number;
  readonly before: TroubleCount;
  readonly after: TroubleCount;
  /** Each cog compared with itself, so that it does not matter which of them were ridden more. */
  readonly probabilityBetter: number;
}

/** Two parts of which an adjustment made one better and the other worse. */
export interface OppositeWays {
  readonly better: PartComparison;
  readonly worse: PartComparison;
  /**
   * Whether both fail at one setting, before or after, each towards its own end of the cassette: then no setting between cures both, as with a
   * bent hanger. A setting turned past the mark fails one way before and the other way after, and on the same cogs.
   */
  readonly noneCuresBoth: boolean;
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
  const total = (when: 'before' | 'after'): TroubleCount => ({
    trouble: sum(own, (row) => row[when].trouble),
    shifts: sum(own, (row) => row[when].shifts),
  });
  const [before, after] = [total('before'), total('after')];
  return {
    part,
    cogs: [...new Set(own.map(({ cog }) => cog))],
    centreCog: sum(own, (row) => row.cog * (row.before.trouble + row.after.trouble)) / (before.trouble + after.trouble),
    before,
    after,
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
  const least = isDecided(allBetter) ? AGAINST_ALL : DECIDED_AT;
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
  if (!found) return null;
  const { better, worse } = found;
  return { better, worse, noneCuresBoth: failTogether(better, worse) && atOppositeEnds(better, worse, rows) };
}

const failTogether = (a: PartComparison, b: PartComparison): boolean =>
  (failsForSure(a.before) && failsForSure(b.before)) || (failsForSure(a.after) && failsForSure(b.after));

/** Whether the trouble of two parts lies on average in different halves of the cogs that were ridden. */
function atOppositeEnds(a: PartComparison, b: PartComparison, rows: readonly CogComparison[]): boolean {
  const ridden = rows.map(({ cog }) => cog);
  const middle = (Math.min(...ridden) + Math.max(...ridden)) / 2;
  return (a.centreCog - middle) * (b.centreCog - middle) < 0;
}
