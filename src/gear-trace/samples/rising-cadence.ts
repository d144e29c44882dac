import { median } from 'd3-array';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { PEDALLING_RPM } from './pedalling-rpm.ts';

/** Slower than this the wheel itself is gathering pace. */
const ROLLING_MPS = 2;
/** Records further apart show neither that the legs stood still just before nor that they went on turning. */
const NEXT_WITHIN_S = 1.5;
const GOES_ON_S = 7;
/** Seconds after a restart that are looked at, and those of them by which the cadence of most sensors has risen: riders in traffic or on a trail seldom pedal longer. */
const LOOKED_AT_S = 7;
const RISEN_FROM_S = 5;
/** The longest that a sensor is taken to rise. */
const LONGEST_S = 8;
/** Fewer restarts say nothing about the sensor. */
const LEAST_RESTARTS = 8;
/** A cadence this much too low for the gear (log) is still rising. */
const STILL_LOW = 0.03;
/** From the second after the restart on, legs have caught up with the wheel: a cadence then still this much too low (log) is the sensor's. */
const CAUGHT_UP_S = 1;
const TOO_LOW = 0.1;

/**
 * Marks the records in which the cadence still rises after coasting. A sensor that averages shows legs that start again slow for
 * some seconds, so that the ratio falls gear by gear as though the chain crept to ever larger cogs. Whether a ride's sensor does so is
 * told from its own restarts on a rolling bike: half of them are still far from the gear pedalled some seconds later when legs have long caught up.
 *
 * @returns 1 where the cadence still rises, by record; all 0 for a sensor that shows the legs at once
 */
export function risingCadence({ timeS, speedMps }: RideLog, cadenceRpm: Float64Array): Uint8Array {
  const rising = new Uint8Array(timeS.length);
  const excess: number[][] = Array.from({ length: RISEN_FROM_S }, () => []);
  for (let i = 1; i < timeS.length; i++)
    if (startsAt(timeS, cadenceRpm, i)) addRestart(excess, timeS, speedMps, cadenceRpm, i);
  if (excess[CAUGHT_UP_S].length < LEAST_RESTARTS || !((median(excess[CAUGHT_UP_S]) as number) > TOO_LOW))
    return rising;
  const risen = excess.findIndex((of) => of.length < LEAST_RESTARTS || !((median(of) as number) > STILL_LOW));
  const risesS = risen < 0 ? LONGEST_S : risen;
  for (let i = 1; i < timeS.length; i++)
    if (startsAt(timeS, cadenceRpm, i))
      for (let k = i; timeS[k] - timeS[i] < risesS && cadenceRpm[k] > PEDALLING_RPM; k++) rising[k] = 1;
  return rising;
}

const startsAt = (timeS: Float64Array, cadenceRpm: Float64Array, i: number): boolean =>
  cadenceRpm[i] > PEDALLING_RPM && cadenceRpm[i - 1] <= PEDALLING_RPM && timeS[i] - timeS[i - 1] <= NEXT_WITHIN_S;

/** Adds how far the ratio of a restart on a rolling bike lay above the one pedalled some seconds later, second by second. */
function addRestart(
  excess: readonly number[][],
  timeS: Float64Array,
  speedMps: Float64Array,
  cadenceRpm: Float64Array,
  start: number,
): void {
  if (!(speedMps[start - 1] > ROLLING_MPS)) return;
  const early: [second: number, level: number][] = [];
  const later: number[] = [];
  for (let i = start; timeS[i] - timeS[start] < LOOKED_AT_S; i++) {
    if (!(cadenceRpm[i] > PEDALLING_RPM && speedMps[i] > ROLLING_MPS)) return;
    if (i > start && timeS[i] - timeS[i - 1] > GOES_ON_S) return;
    const second = Math.floor(timeS[i] - timeS[start]);
    const level = Math.log(speedMps[i] / cadenceRpm[i]);
    if (second < RISEN_FROM_S) early.push([second, level]);
    else later.push(level);
  }
  const risen = median(later);
  if (risen === undefined) return;
  for (const [second, level] of early) excess[second].push(level - risen);
}
