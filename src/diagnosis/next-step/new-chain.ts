import type { AdjustmentComparison } from '../../adjustments/compare-adjustments.ts';
import { wears } from '../../adjustments/compare-skips.ts';
import { isTogether } from '../../adjustments/made-together.ts';
import type { Caution } from './caution.ts';
import { stepCautions } from './step-cautions.ts';

/** By then a rider knows whether a new chain skips. An assumption of ours. */
const KNOWN_AFTER_HOURS = 10;

/**
 * What to beware of where a chain was replaced and the cassette was not, until it was pedalled for some hours; one that was seen to skip
 * since is not done with.
 *
 * @param comparisons in order of time
 */
export function newChainCautions(comparisons: readonly AdjustmentComparison[]): Caution[] {
  const last = comparisons.findLast(({ parameter }) => wears(parameter));
  if (!last?.skipping) return [];
  const chainAlone = comparisons
    .filter((one) => wears(one.parameter) && isTogether(one, last))
    .every(({ parameter }) => parameter === 'chain');
  const { hours, skips } = last.skipping.after;
  return chainAlone && (hours < KNOWN_AFTER_HOURS || skips > 0) ? [stepCautions.newChain] : [];
}
