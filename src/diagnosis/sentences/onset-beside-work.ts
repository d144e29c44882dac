import type { AdjustmentComparison } from '../../adjustments/compare-adjustments.ts';
import { DECIDED_AT } from '../../adjustments/compare-rates.ts';
import type { Cause } from '../causes.ts';
import type { Onset } from '../diagnosis.ts';
import { touches } from './touches.ts';

/**
 * A fault that work took away for a while, and that came back, or that work made worse for sure, did not grow over the rides by itself: how it
 * began is then not said.
 */
export function onsetBesideWork(onset: Onset, cause: Cause, comparisons: readonly AdjustmentComparison[]): Onset {
  if (onset.kind !== 'gradual') return onset;
  const byWork = comparisons.some(
    (one) => one.probabilityBetter <= 1 - DECIDED_AT || (touches(cause, one.parameter) && one.cameBack),
  );
  return byWork ? { ...onset, kind: 'unknown', at: null } : onset;
}
