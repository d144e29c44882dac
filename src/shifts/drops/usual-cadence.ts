import { quantile } from 'd3-array';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';

/** The cadence that this share of a ride's records with turning cranks does not exceed is the usual one. */
const USUAL_SHARE = 0.95;
/** Legs that spin without a chain run this much faster than that: riders who turn the cranks idly do it slowly. */
export const LEAST_SPIN = 1.1;

/** The cadence that a ride hardly ever exceeds, rpm; NaN where nobody pedalled. */
export function usualCadence({ cadenceRpm }: Pick<RideLog, 'cadenceRpm'>): number {
  const turning = cadenceRpm.filter((rpm) => rpm > PEDALLING_RPM);
  return quantile(turning, USUAL_SHARE) ?? Number.NaN;
}
