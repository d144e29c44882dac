import { nearNormalBelow } from '../../numeric/near-normal.ts';
import { studentT4 } from '../../numeric/student-t.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import type { GearModel, RatioNoise } from '../gear-model.ts';
import type { PedallingSamples } from '../samples/pedalling-samples.ts';
import { restsOf } from '../samples/since-rest.ts';
import type { GearStates } from './gear-states.ts';

/** Share of seconds that no gear explains: glitches, the seconds within a shift. */
const OUTLIER = 0.02;
/** Uncertainty of the speed lag, s: it widens the ratio while speed changes. */
const LAG_DOUBT_S = 0.4;
/** Cadence is a whole number of turns a minute: a uniform error of half a turn has this standard deviation. */
const CADENCE_ROUNDING_RPM = 0.29;
/** Mean of how far freewheeling lifts the log ratio. */
const FREE_LIFT = 0.5;
/** Log developments lie anywhere within so much where no gear explains them. */
const RANGE = 4;
/** Keeps the density of freewheeling below the gear above 0. */
const LEAST_LIFT_DENSITY = 1e-4;

/** Standard deviation of the log development at each record, given the ride's own noise. */
export function ratioDeviation(log: RideLog, samples: PedallingSamples, noise: RatioNoise): Float64Array {
  const { sinceS } = restsOf(log.timeS, samples);
  return log.cadenceRpm.map((cadence, i) =>
    samples.usable[i]
      ? Math.hypot(
          noise.relative,
          noise.afterRest?.[Math.floor(sinceS[i])]?.deviation ?? 0,
          noise.absoluteMps / log.speedMps[i],
          CADENCE_ROUNDING_RPM / cadence,
          (LAG_DOUBT_S * samples.accelerationMps2[i]) / log.speedMps[i],
        )
      : Number.NaN,
  );
}

/**
 * Log likelihood of each record in each state. Driving: a heavy-tailed peak (Student-t, 4 degrees of freedom) at the
 * gear's development. Freewheeling: anywhere above it, never below. Drive lost: anywhere. Power, where there is any,
 * tells driving from the other two. Records without a usable ratio say nothing about the gear.
 *
 * @param shown columns with NaN where there is no ratio
 * @returns row-major, records x states
 */
export function gearEmission(
  log: RideLog,
  model: GearModel,
  states: GearStates,
  { logDevelopment, deviation }: { readonly logDevelopment: Float64Array; readonly deviation: Float64Array },
): Float32Array {
  const { count, gears, lost } = states;
  const { independence } = model.noise;
  const rows = new Float32Array(log.timeS.length * count);
  for (let i = 0; i < log.timeS.length; i++) {
    const y = logDevelopment[i];
    const sd = deviation[i];
    if (Number.isNaN(y) || Number.isNaN(sd)) continue;
    const row = i * count;
    const power = powerLogLikelihood(log.powerW[i]);
    for (let g = 0; g < gears; g++) {
      const z = (y - model.logDevelopment[g]) / sd;
      const peak = studentT4(z, sd);
      rows[row + g] = independence * Math.log((1 - OUTLIER) * peak + OUTLIER / RANGE) + power.driving;
      rows[row + gears + g] =
        independence * Math.log(liftDensity(y - model.logDevelopment[g], sd) + LEAST_LIFT_DENSITY) + power.free;
    }
    rows[row + lost] = independence * Math.log(1 / RANGE) + power.free;
  }
  return rows;
}

/** Density of a lift above the gear: exponential, its foot rounded by the noise. */
function liftDensity(lift: number, sd: number): number {
  const foot = nearNormalBelow(lift / sd);
  return (foot * Math.exp(-Math.max(0, lift) / FREE_LIFT)) / FREE_LIFT;
}

/** How often power reads below each bound while the chain drives and while it does not. Assumptions of ours. */
const POWER = [
  { belowW: 10, driving: Math.log(0.04), free: Math.log(0.85) },
  { belowW: 40, driving: Math.log(0.08), free: Math.log(0.1) },
  { belowW: Number.POSITIVE_INFINITY, driving: Math.log(0.88), free: Math.log(0.05) },
] as const;
const NO_POWER = { driving: 0, free: 0 } as const;

/** Log likelihood of a power reading while driving and while not. Without a reading both are 0. */
function powerLogLikelihood(powerW: number): { readonly driving: number; readonly free: number } {
  return POWER.find(({ belowW }) => powerW < belowW) ?? NO_POWER;
}
