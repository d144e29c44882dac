import type { RideLog } from '../ride-log/ride-log.ts';

/** Mean crank torque over records `from` to `to` (exclusive), Nm: power over angular speed. NaN without power or cadence over 20 rpm. */
export function crankTorque(log: RideLog, from: number, to: number): number {
  let sum = 0;
  let count = 0;
  for (let i = Math.max(0, from); i < Math.min(to, log.timeS.length); i++) {
    if (!(log.cadenceRpm[i] > 20) || Number.isNaN(log.powerW[i])) continue;
    sum += (log.powerW[i] * 60) / (2 * Math.PI * log.cadenceRpm[i]);
    count++;
  }
  return count > 0 ? sum / count : Number.NaN;
}
