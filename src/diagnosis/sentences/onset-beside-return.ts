import type { AdjustmentComparison } from '../../adjustments/compare-adjustments.ts';
import type { Cause } from '../causes.ts';
import type { Onset } from '../diagnosis.ts';
import { touches } from './touches.ts';

/** A fault that an adjustment took away for a while, and that came back, did not grow over the rides: how it began is then not said. */
export function onsetBesideReturn(onset: Onset, cause: Cause, comparisons: readonly AdjustmentComparison[]): Onset {
  const cameBack = comparisons.some((one) => one.cameBack && touches(cause, one.parameter));
  return cameBack && onset.kind === 'gradual' ? { ...onset, kind: 'unknown', at: null } : onset;
}
