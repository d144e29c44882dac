import type { RideLog } from '../../ride-log/ride-log.ts';
import { logDevelopmentColumn, type PedallingSamples } from '../samples/pedalling-samples.ts';

/** Changes are looked at over so many seconds, give or take half a one. */
const APART_S = 4;
/** In one gear the log development moves by no more than this from one record to the next. */
const STEADY = 0.06;
/** A smaller change of the log cadence says nothing. */
const MIN_CHANGE = 0.02;
/** With less power the legs may not drive. */
const MIN_POWER_W = 30;
/** Fewer changes tell no slope. */
const MIN_PAIRS = 60;
/** In one gear speed changes as cadence does (slope 1). Noise and lag lower the slope, nothing raises it much. */
const LOWEST_SLOPE = 0.35;
const HIGHEST_SLOPE = 1.2;

/**
 * Whether speed follows cadence as a chain makes it: over 4 s of steady pedalling the change of log speed is regressed on the
 * change of log cadence. Real rides give slopes of 0.6 to 1.02; a speed computed from power gave 1.4.
 * True where too few such changes are there to tell.
 */
export function speedFollowsCadence(log: RideLog, samples: PedallingSamples, speedLagS: number): boolean {
  const column = logDevelopmentColumn(log, samples, speedLagS);
  let pairs = 0;
  let cadenceCadence = 0;
  let cadenceSpeed = 0;
  let first = 0;
  for (let i = 1; i < column.length; i++) {
    while (log.timeS[i] - log.timeS[first] > APART_S + 0.5) first++;
    if (!(Math.abs(column[i] - column[i - 1]) < STEADY) || log.powerW[i] < MIN_POWER_W) {
      first = i;
      continue;
    }
    if (log.timeS[i] - log.timeS[first] < APART_S - 0.5) continue;
    const cadence = Math.log(log.cadenceRpm[i] / log.cadenceRpm[first]);
    if (Math.abs(cadence) < MIN_CHANGE) continue;
    cadenceCadence += cadence * cadence;
    cadenceSpeed += cadence * (column[i] - column[first] + cadence);
    pairs++;
  }
  if (pairs < MIN_PAIRS) return true;
  const slope = cadenceSpeed / cadenceCadence;
  return slope > LOWEST_SLOPE && slope < HIGHEST_SLOPE;
}
