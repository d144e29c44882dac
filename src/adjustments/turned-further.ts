import type { Adjustment } from './adjustment.ts';
import type { AdjustmentGroup, AdjustmentPeriod } from './adjustment-periods.ts';
import { endOfScrew } from './compare-end-cog.ts';

/** Turns of one setting the same way, one after the other with no other work between: places of groups, in order of time. */
interface Turns {
  readonly first: number;
  readonly last: number;
}

/** The one entry of a group that turned something; null where it is not the only one, or aligned or replaced a part. */
const onlyTurn = (group: AdjustmentGroup | undefined): Adjustment | null =>
  group?.adjustments.length === 1 && group.adjustments[0].amount ? group.adjustments[0] : null;

const sameWay = (a: Adjustment | null, b: Adjustment | null): boolean =>
  a !== null && b !== null && a.parameter === b.parameter && (a.amount ?? 0) * (b.amount ?? 0) > 0;

/** The turns that end with a group; null where it is not the last of several. */
export function turnsUpTo(groups: readonly AdjustmentGroup[], last: number): Turns | null {
  const made = onlyTurn(groups[last]);
  if (sameWay(made, onlyTurn(groups[last + 1]))) return null;
  let first = last;
  while (sameWay(made, onlyTurn(groups[first - 1]))) first--;
  return first < last ? { first, last } : null;
}

/**
 * The riding after some turns that speaks for all of them: that since the last, but for a limit that was screwed in, whose every turn proves no less
 * what the rides before it showed, all since the first.
 */
export function ridingAfter(
  { first, last }: Turns,
  groups: readonly AdjustmentGroup[],
  periods: readonly AdjustmentPeriod[],
): AdjustmentPeriod {
  const [{ parameter, amount }] = groups[last].adjustments;
  return endOfScrew[parameter] && (amount ?? 0) > 0 ? joined(periods.slice(first + 1, last + 2)) : periods[last + 1];
}

/** Periods that follow one another, as one. */
const joined = (periods: readonly AdjustmentPeriod[]): AdjustmentPeriod => ({
  shifts: periods.flatMap(({ shifts }) => shifts),
  shiftMs: periods.flatMap(({ shiftMs }) => shiftMs),
  commanded: periods.flatMap(({ commanded }) => commanded),
  commandedMs: periods.flatMap(({ commandedMs }) => commandedMs),
  ghostShifts: periods.flatMap(({ ghostShifts }) => ghostShifts),
  ghostMs: periods.flatMap(({ ghostMs }) => ghostMs),
  chainDrops: periods.flatMap(({ chainDrops }) => chainDrops),
  dropMs: periods.flatMap(({ dropMs }) => dropMs),
});
