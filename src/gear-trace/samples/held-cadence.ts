import { median } from 'd3-array';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { PEDALLING_RPM } from './pedalling-rpm.ts';

/** Records further apart are no neighbours. */
const NEXT_WITHIN_S = 1.5;
/** Fewer stops say nothing about the sensor. */
const LEAST_STOPS = 4;
/** Share of steady pedalling that may by chance repeat a reading as often as stops do. */
const MOST_BY_CHANCE = 0.3;

/** A reading over the standing speed that is repeated from record `from` to `to`, end exclusive. */
interface Run {
  readonly from: number;
  readonly to: number;
  readonly stops: boolean;
}

/**
 * Cadence as the legs turned. Many crank sensors repeat their last reading for some seconds after the legs have stopped, then fall to
 * 0: in three of four outdoor rides looked at, the last reading stood for exactly three records at most stops, while in steady
 * pedalling one run in thirty is as long. Whether a ride's sensor does so is told from its own stops; the repeated readings are then
 * set to 0: as many before each stop as is usual for the sensor, and those with zero power.
 *
 * @returns rpm by record; the log's own column where the sensor holds nothing
 */
export function cadenceWithoutHeld({ timeS, cadenceRpm, powerW }: RideLog): Float64Array {
  const runs = repeatedReadings(timeS, cadenceRpm);
  const stops = runs.filter((run) => run.stops);
  const usual = Math.ceil(median(stops, (run) => run.to - run.from) ?? 1);
  const others = runs.filter((run) => !run.stops);
  const byChance = others.filter((run) => run.to - run.from >= usual).length / others.length;
  if (stops.length < LEAST_STOPS || usual < 2 || !(byChance < MOST_BY_CHANCE)) return cadenceRpm;
  const turned = Float64Array.from(cadenceRpm);
  for (const { from, to, stops: atStop } of runs) {
    if (atStop) turned.fill(0, Math.max(from + 1, to - (usual - 1)), to);
    for (let i = from + 1; i < to; i++) if (powerW[i] === 0) turned[i] = 0;
  }
  return turned;
}

function repeatedReadings(timeS: Float64Array, cadenceRpm: Float64Array): Run[] {
  const follows = (i: number): boolean => i < timeS.length && timeS[i] - timeS[i - 1] <= NEXT_WITHIN_S;
  const runs: Run[] = [];
  for (let from = 0; from < cadenceRpm.length; ) {
    let to = from + 1;
    while (follows(to) && cadenceRpm[to] === cadenceRpm[from]) to++;
    if (cadenceRpm[from] > PEDALLING_RPM) runs.push({ from, to, stops: follows(to) && cadenceRpm[to] < PEDALLING_RPM });
    from = to;
  }
  return runs;
}
