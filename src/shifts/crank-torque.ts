import type { RideLog } from '../ride-log/ride-log.ts';

/** Below this a sensor's cadence is too coarse, and may be decaying: no torque and no load is taken from it. */
export const TURNING_RPM = 20;

/** Mean crank torque over records `from` to `to` (exclusive), Nm: power over angular speed. NaN without power or cadence over `TURNING_RPM`. */
export function crankTorque(log: RideLog, from: number, to: number): number {
  let sum = 0;
  let count = 0;
  for (let i = Math.max(0, from); i < Math.min(to, log.timeS.length); i++) {
    if (!(log.cadenceRpm[i] > TURNING_RPM) || Number.isNaN(log.powerW[i])) continue;
    sum += (log.powerW[i] * 60) / (2 * Math.PI * log.cadenceRpm[i]);
    count++;
  }
  return count > 0 ? sum / count : Number.NaN;
}
