import type { AdjustmentComparison } from './compare-adjustments.ts';
import { DECIDED_AT } from './compare-rates.ts';
import { isTogether } from './made-together.ts';
import { turnedInAll } from './turned-in-all.ts';

/** What is left of an adjustment that made shifting worse. */
export interface StandingHarm {
  readonly at: string;
  readonly parameter: AdjustmentComparison['parameter'];
  readonly unit: AdjustmentComparison['unit'];
  /** What would take it back, with the sign of the table of adjustments. */
  readonly back: number;
}

const madeWorse = ({ probabilityBetter, oppositeWays, cameBack, before, after }: AdjustmentComparison): boolean =>
  probabilityBetter <= 1 - DECIDED_AT && !oppositeWays && !cameBack && before.shifts > 0 && after.shifts > 0;

/** A limit past which a chain was lost is not opened again, whatever closing it did to the shifts. */
const opensWhereLost = ({ endCog, amount }: AdjustmentComparison): boolean =>
  endCog !== null && (amount ?? 0) > 0 && endCog.before.lost + endCog.after.lost > 0;

/**
 * The latest adjustments that made shifting worse for sure, made together or one alone, as far as nothing logged since took them back. None
 * where a part was aligned or replaced with them or since: then what was turned belongs to it.
 *
 * @param comparisons in order of time
 */
export function standingHarm(comparisons: readonly AdjustmentComparison[]): StandingHarm[] {
  const worst = comparisons.findLast(madeWorse);
  if (!worst) return [];
  const from = comparisons.findIndex((one) => isTogether(one, worst));
  const since = comparisons.slice(from);
  if (since.some(({ amount }) => amount === null)) return [];
  const group = since.filter((one) => isTogether(one, worst) && madeWorse(one) && !opensWhereLost(one));
  return [...new Set(group.map(({ parameter }) => parameter))].flatMap((parameter) => {
    const [done, left] = [group, since].map((rows) => turnedInAll(rows.filter((one) => one.parameter === parameter)));
    if (done * left <= 0) return [];
    const { at, unit } = group.find((one) => one.parameter === parameter) as AdjustmentComparison;
    return [{ at, parameter, unit, back: -Math.sign(done) * Math.min(Math.abs(done), Math.abs(left)) }];
  });
}
