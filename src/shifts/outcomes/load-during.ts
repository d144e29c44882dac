import type { RideLog } from '../../ride-log/ride-log.ts';
import type { CommandedShift } from '../commands/commanded-shifts.ts';
import { crankTorque, TURNING_RPM } from '../crank-torque.ts';
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
  const from = firstAfter(log.timeS, fromS - 0.5);
  let to = from;
  let cadence = 0;
  let cadences = 0;
  for (; to < log.timeS.length && log.timeS[to] < fromS + LOAD_S; to++) {
    if (!(log.cadenceRpm[to] > TURNING_RPM)) continue;
    cadence += log.cadenceRpm[to];
    cadences++;
  }
  return {
    torqueNm: crankTorque(log, from, to),
    cadenceRpm: cadences > 0 ? cadence / cadences : Number.NaN,
  };
}
