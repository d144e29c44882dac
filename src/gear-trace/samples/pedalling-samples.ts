import type { RideLog } from '../../ride-log/ride-log.ts';
import { cadenceWithoutHeld } from './held-cadence.ts';
import { PEDALLING_RPM } from './pedalling-rpm.ts';
import { risingCadence } from './rising-cadence.ts';
import { sensorFaults } from './sensor-faults.ts';

/**
 * What each record says about the gear, before any drivetrain is assumed. Columns share the ride log's index.
 */
export interface PedallingSamples {
  /** Seconds since the record before; 1 for the first. */
  readonly dtS: Float64Array;
  /** 1 where speed and cadence are there and large enough to divide: over 1 m/s, 30 to 180 rpm, no sensor at fault, no cadence that still rises after coasting. */
  readonly usable: Uint8Array;
  /** Slope of speed, m/s2, by least squares over the records within 2.5 s (the next ones where none is as near); 0 where it cannot be had. */
  readonly accelerationMps2: Float64Array;
  /** 1 where the cadence of a sensor that averages still rises after coasting; all 0 for other sensors. */
  readonly rising: Uint8Array;
  /** Rpm without the readings that the sensor held after the legs had stopped. */
  readonly cadenceRpm: Float64Array;
  /** 1 where the cranks turn (over 30 rpm). */
  readonly pedalling: Uint8Array;
}

/** Slower than this a speed, and faster than this a cadence, gives no ratio to go by. */
const MIN_SPEED_MPS = 1;
const MAX_CADENCE_RPM = 180;
/** The slope of speed is taken over the records this near. */
const SLOPE_REACH_S = 2.5;
/** Where records are sparse, the neighbours are taken up to this far. */
const SPARSE_REACH_S = 7;

/** Marks the records from which a speed-to-cadence ratio can be taken, and the slope of speed around them. */
export function pedallingSamples(log: RideLog): PedallingSamples {
  const count = log.timeS.length;
  const dtS = new Float64Array(count).fill(1);
  const usable = new Uint8Array(count);
  const pedalling = new Uint8Array(count);
  const faulty = sensorFaults(log);
  const cadenceRpm = cadenceWithoutHeld(log);
  const rising = risingCadence(log, cadenceRpm);
  for (let i = 0; i < count; i++) {
    if (i > 0) dtS[i] = log.timeS[i] - log.timeS[i - 1];
    const cadence = cadenceRpm[i];
    pedalling[i] = cadence > PEDALLING_RPM ? 1 : 0;
    const inRange = log.speedMps[i] > MIN_SPEED_MPS && cadence > PEDALLING_RPM && cadence <= MAX_CADENCE_RPM;
    usable[i] = inRange && !faulty[i] && !rising[i] ? 1 : 0;
  }
  return { dtS, usable, rising, cadenceRpm, pedalling, accelerationMps2: speedSlope(log) };
}

function speedSlope({ timeS, speedMps }: RideLog): Float64Array {
  const slope = new Float64Array(timeS.length);
  let first = 0;
  let last = 0;
  for (let i = 0; i < timeS.length; i++) {
    while (timeS[i] - timeS[first] > SLOPE_REACH_S && !(first === i - 1 && timeS[i] - timeS[first] <= SPARSE_REACH_S))
      first++;
    while (
      last < i ||
      (last + 1 < timeS.length && timeS[last + 1] - timeS[i] <= (last === i ? SPARSE_REACH_S : SLOPE_REACH_S))
    )
      last++;
    slope[i] = leastSquaresSlope({ timeS, speedMps }, first, last, timeS[i]);
  }
  return slope;
}

/** Slope of the speed over records `first` to `last`, m/s2, NaN speeds left out; 0 where fewer than three are left. Times count from `fromS`, which keeps them small. */
function leastSquaresSlope(
  { timeS, speedMps }: Pick<RideLog, 'timeS' | 'speedMps'>,
  first: number,
  last: number,
  fromS: number,
): number {
  let n = 0;
  let sumT = 0;
  let sumV = 0;
  let sumTT = 0;
  let sumTV = 0;
  for (let k = first; k <= last; k++) {
    const v = speedMps[k];
    if (Number.isNaN(v)) continue;
    const t = timeS[k] - fromS;
    n++;
    sumT += t;
    sumV += v;
    sumTT += t * t;
    sumTV += t * v;
  }
  const spread = n * sumTT - sumT * sumT;
  return n >= 3 && spread > 0 ? (n * sumTV - sumT * sumV) / spread : 0;
}

/** Records further apart than this show no speed between them. */
const NEXT_WITHIN_S = 2.5;

/**
 * Log development (ln of metres a crank turn) at each usable record once the speed's lag behind the cadence is undone, as that of a
 * first-order filter: ln((speed + lag x slope) x 60 / cadence). A negative lag means that the cadence follows the speed: then it is
 * set against the speed shown that much earlier. NaN elsewhere, or where undoing it would more than halve or double the speed.
 */
export function logDevelopmentColumn(log: RideLog, samples: PedallingSamples, speedLagS: number): Float64Array {
  const { speedMps, cadenceRpm } = log;
  const earlier = speedLagS < 0 ? speedsShown(log, speedLagS) : null;
  return speedMps.map((speed, i) => {
    if (!samples.usable[i]) return Number.NaN;
    const shown = earlier?.[i] ?? Number.NaN;
    const undone = Number.isNaN(shown) ? speed + speedLagS * samples.accelerationMps2[i] : shown;
    return undone > speed / 2 && undone < speed * 2 ? Math.log((undone * 60) / cadenceRpm[i]) : Number.NaN;
  });
}

/** The speed shown `byS` after each record, between two records in proportion; NaN where none is near. */
function speedsShown({ timeS, speedMps }: RideLog, byS: number): Float64Array {
  let next = 0;
  return timeS.map((recordS) => {
    const shownS = recordS + byS;
    while (next < timeS.length && timeS[next] < shownS) next++;
    if (timeS[next] === shownS) return speedMps[next];
    const gapS = timeS[next] - timeS[next - 1];
    if (!(gapS <= NEXT_WITHIN_S)) return Number.NaN;
    return speedMps[next - 1] + ((shownS - timeS[next - 1]) / gapS) * (speedMps[next] - speedMps[next - 1]);
  });
}
