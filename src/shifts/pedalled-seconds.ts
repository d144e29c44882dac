import type { PedallingSamples } from '../gear-trace/pedalling-samples.ts';

/** A longer step between two records counts for no more. */
const LONGEST_STEP_S = 5;

/** Seconds that the cranks turned in the step before a record. */
export function pedalledSeconds({ pedalling, dtS }: PedallingSamples, record: number): number {
  return pedalling[record] ? Math.min(dtS[record], LONGEST_STEP_S) : 0;
}
