import type { AdjustmentComparison } from '../../adjustments/compare-adjustments.ts';
import { wears } from '../../adjustments/compare-skips.ts';
import { isTogether } from '../../adjustments/made-together.ts';

/** Common practice in the trade, no source: worn cogs fit the worn chain that was on them, and a new one climbs over their teeth. */
export const NEW_CHAIN =
  'A new chain skips under load on worn cogs: look at the teeth of the most used cogs on a stand, and pedal firmly but seated, away from traffic, before any hard effort.';
/** By then a rider knows whether a new chain skips. An assumption of ours. */
const KNOWN_AFTER_HOURS = 10;

/**
 * What to beware of where a chain was replaced and the cassette was not, until it was pedalled for some hours; one that was seen to skip
 * since is not done with.
 *
 * @param comparisons in order of time
 */
export function newChainCautions(comparisons: readonly AdjustmentComparison[]): string[] {
  const last = comparisons.findLast(({ parameter }) => wears(parameter));
  if (!last?.skipping) return [];
  const chainAlone = comparisons
    .filter((one) => wears(one.parameter) && isTogether(one, last))
    .every(({ parameter }) => parameter === 'chain');
  const { hours, skips } = last.skipping.after;
  return chainAlone && (hours < KNOWN_AFTER_HOURS || skips > 0) ? [NEW_CHAIN] : [];
}
