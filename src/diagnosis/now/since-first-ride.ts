import type { Adjustment } from '../../adjustments/adjustment.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { DiagnosisRide } from '../diagnosis.ts';

/** What was turned before the first ride moves nothing of the fault that it found. */
export function sinceFirstRide<One extends Pick<Adjustment, 'at'>>(
  adjustments: readonly One[],
  rides: readonly Pick<DiagnosisRide, 'startMs'>[],
): One[] {
  const firstMs = Math.min(...rides.map(({ startMs }) => startMs).filter(hasClock));
  return adjustments.filter(({ at }) => Date.parse(at) >= firstMs);
}
