import type { RideTrace } from '../gear-trace/gear-trace.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { firstAfter } from './commanded-shifts.ts';
import { crankTorque } from './crank-torque.ts';
import type { SkipEvent } from './ride-events.ts';

const QUIET_BEFORE_S = 6;
const QUIET_AFTER_S = 3;
const MIN_DIP = 0.06;
const MIN_DEVIATIONS = 6;
const MAX_SKIP_S = 2;
const STEADY_RECORDS = 4;
/** Torque beyond easy riding, Nm (assumption of ours). */
const HARD_NM = 30;

/**
 * Finds skips: in settled pedalling, away from commands, the cranks run ahead of the wheel for under 2 s (the ratio dips below
 * the cog's development, which freewheeling never does) and the same cog drives before and after.
 */
export function skips(log: RideLog, trace: RideTrace, sensorLagS: number): SkipEvent[] {
  const { model, commands } = trace;
  if (!model) return [];
  const dipOf = (i: number): number => {
    if (trace.cog[i] < 0 || trace.ring[i] < 0) return Number.NaN;
    return model.logDevelopment[trace.ring[i] * model.cogs + trace.cog[i]] - trace.logDevelopment[i];
  };
  const steady = (i: number): boolean => Math.abs(dipOf(i)) < 3 * trace.deviation[i];
  const found: SkipEvent[] = [];
  for (let i = STEADY_RECORDS; i + STEADY_RECORDS < log.timeS.length; i++) {
    if (!(dipOf(i) > Math.max(MIN_DIP, MIN_DEVIATIONS * trace.deviation[i]))) continue;
    let end = i + 1;
    while (end < log.timeS.length && dipOf(end) > 3 * trace.deviation[end]) end++;
    const start = i;
    i = end;
    if (log.timeS[end - 1] - log.timeS[start] >= MAX_SKIP_S) continue;
    const atS = log.timeS[start];
    const last = firstAfter(commands.timeS, atS) - 1;
    if (atS - (commands.timeS[last] ?? Number.NEGATIVE_INFINITY) < QUIET_BEFORE_S + sensorLagS) continue;
    if ((commands.timeS[last + 1] ?? Number.POSITIVE_INFINITY) - atS < QUIET_AFTER_S) continue;
    let calm = true;
    for (let k = 1; k <= STEADY_RECORDS; k++) {
      const around = [start - k, end - 1 + k];
      calm &&= around.every((j) => trace.cog[j] === trace.cog[start] && (k === 1 || steady(j)));
    }
    // the wheel keeps its speed while the chain slips; a speed that sags and returns is the sensor's slip
    const sag = Math.log(log.speedMps[start] / ((log.speedMps[start - 2] + log.speedMps[end + 1]) / 2));
    if (!calm || sag < -MIN_DIP / 2) continue;
    const torqueNm = crankTorque(log, start - 2, end + 1);
    // without gear records a quick shift there and back looks the same: only a hard push speaks for a skip
    if (commands.timeS.length === 0 && !(torqueNm > HARD_NM)) continue;
    const z = dipOf(start) / trace.deviation[start];
    found.push({
      timeS: Math.max(0, atS - Math.max(0, sensorLagS)),
      cog: trace.cog[start],
      confidence: 1 - Math.exp(-z / 6),
      torqueNm,
    });
  }
  return found;
}
