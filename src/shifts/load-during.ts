import type { RideLog } from '../ride-log/ride-log.ts';
import type { CommandedShift } from './commanded-shifts.ts';
import { firstAfter } from './first-after.ts';

const LOAD_S = 3;

/** Mean crank torque and cadence over the 3 s from the command; NaN where the ride does not tell. */
export function loadDuring(log: RideLog, shift: CommandedShift): { torqueNm: number; cadenceRpm: number } {
  let torque = 0;
  let torques = 0;
  let cadence = 0;
  let cadences = 0;
  for (
    let i = firstAfter(log.timeS, shift.timeS - 0.5);
    i < log.timeS.length && log.timeS[i] < shift.timeS + LOAD_S;
    i++
  ) {
    const rpm = log.cadenceRpm[i];
    if (!(rpm > 20)) continue;
    cadence += rpm;
    cadences++;
    if (Number.isNaN(log.powerW[i])) continue;
    torque += (log.powerW[i] * 60) / (2 * Math.PI * rpm);
    torques++;
  }
  return {
    torqueNm: torques > 0 ? torque / torques : Number.NaN,
    cadenceRpm: cadences > 0 ? cadence / cadences : Number.NaN,
  };
}
