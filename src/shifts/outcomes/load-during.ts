import type { RideLog } from '../../ride-log/ride-log.ts';
import type { CommandedShift } from '../commands/commanded-shifts.ts';
import { firstAfter } from '../first-after.ts';
import type { RevolutionClock } from '../turns/revolution-clock.ts';
import { turningFrom } from '../turns/turning-from.ts';

const LOAD_S = 3;

/**
 * Mean crank torque and cadence over the 3 s from the command, or from where the cranks turn again after it; NaN where the ride does
 * not tell.
 */
export function loadDuring(
  log: RideLog,
  shift: CommandedShift,
  clock: RevolutionClock,
): { torqueNm: number; cadenceRpm: number } {
  const fromS = turningFrom(clock, shift.timeS);
  let torque = 0;
  let torques = 0;
  let cadence = 0;
  let cadences = 0;
  for (let i = firstAfter(log.timeS, fromS - 0.5); i < log.timeS.length && log.timeS[i] < fromS + LOAD_S; i++) {
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
