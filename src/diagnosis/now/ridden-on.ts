import type { Adjustment } from '../../adjustments/adjustment.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { Cause } from '../causes.ts';
import type { DiagnosisRide } from '../diagnosis.ts';
import { canBring } from '../likelihood/onset-options.ts';

/** Parts that are replaced as a matter of routine, and set nothing anew but what `canBring` and `wears` say. */
const routine: readonly Adjustment['parameter'][] = ['chain', 'cassette', 'wheel'];
const wears = (cause: Cause): boolean => cause === 'worn-drivetrain';

/**
 * The adjustments without those that end the list and can have changed nothing about a cause: a new chain after a cure leaves it a cure, and
 * one after a fault leaves it a fault, and so does any part that no ride came after. Empty where nothing else is logged.
 *
 * @param adjustments in order of time
 */
export function riddenOn(
  adjustments: readonly Adjustment[],
  rides: readonly Pick<DiagnosisRide, 'startMs' | 'durationS'>[],
  cause: Cause,
): Adjustment[] {
  const endsMs = rides.filter(({ startMs }) => hasClock(startMs)).map((ride) => ride.startMs + ride.durationS * 1000);
  const lastMs = Math.max(Number.NEGATIVE_INFINITY, ...endsMs);
  const idle = ({ at, parameter }: Adjustment): boolean =>
    (parameter === 'chain' || Date.parse(at) >= lastMs) &&
    routine.includes(parameter) &&
    !canBring(cause, parameter) &&
    !wears(cause);
  return adjustments.slice(0, adjustments.findLastIndex((one) => !idle(one)) + 1);
}
