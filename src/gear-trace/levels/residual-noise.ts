import { median } from 'd3-array';
import { DEVIATIONS_PER_MAD } from '../../numeric/median-deviation.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { type DecodedGears, SURELY_DRIVING } from '../decoding/decode-gears.ts';
import type { GearModel, RatioNoise } from '../gear-model.ts';

/** Fewer records tell no noise. */
const MIN_RECORDS = 60;
/** Short rides and lucky ones must not make the model surer than any sensor is. */
const LEAST = 0.004;
/** Errors last for so many records at most, and end where they hardly correlate any more; beside a chain that moves, longer ones hardly matter. */
const MAX_LAG = { whileShifting: 8, onOneGear: 40 };
const UNCORRELATED = 0.05;
/** A record counts as the next one's neighbour where the time between them is no longer than so many of its steps, s. */
const NEIGHBOUR_STEP_S = 1.5;
/** An error counts as so many deviations at most. */
const MOST_DEVIATIONS = 4;
/** No ride makes records more or less independent than this. */
const LEAST_INDEPENDENCE = 0.2;
const MOST_INDEPENDENCE = 0.7;

/**
 * How the log development scatters about the decoded gears: a relative part, a part that weighs more at low speed (satellites err by
 * metres a second, not by per cents), and how long an error lasts. From records that were surely driving; the model's own noise with too few.
 */
export function residualNoise(log: RideLog, decoded: DecodedGears, model: GearModel): RatioNoise {
  const found = scatterAbout(log, decoded, model.cogs, model.logDevelopment);
  if (!found) return model.noise;
  const { relative, absoluteMps, bounded } = found;
  const independence = 1 / sharedErrorS(log.timeS, bounded, MAX_LAG.whileShifting);
  return {
    relative,
    absoluteMps,
    independence: Math.max(LEAST_INDEPENDENCE, Math.min(MOST_INDEPENDENCE, independence)),
  };
}

/**
 * The same about where each gear was measured to lie, so that gears which lie elsewhere than the model has them are no noise, with the
 * seconds that share one error while the gear stays; null with too few records.
 *
 * @param centres log developments, index `ring * cogs + cog`; NaN where a gear was not measured
 */
export function noiseAbout(
  log: RideLog,
  decoded: DecodedGears,
  cogs: number,
  centres: ArrayLike<number>,
): (Omit<RatioNoise, 'independence'> & { readonly sharedErrorS: number }) | null {
  const found = scatterAbout(log, decoded, cogs, centres);
  if (!found) return null;
  const { relative, absoluteMps, bounded } = found;
  return { relative, absoluteMps, sharedErrorS: sharedErrorS(log.timeS, bounded, MAX_LAG.onOneGear) };
}

/** Both parts of the scatter, and the residuals within what counts of them; NaN where a record was not surely driven in a gear. */
function scatterAbout(
  log: RideLog,
  decoded: DecodedGears,
  cogs: number,
  centres: ArrayLike<number>,
): { relative: number; absoluteMps: number; bounded: Float64Array } | null {
  const residual = new Float64Array(log.timeS.length).fill(Number.NaN);
  const slow: { off: number; perSpeed: number }[] = [];
  for (let t = 0; t < residual.length; t++) {
    const { cog, ring, driving, logDevelopment } = decoded;
    if (cog[t] < 0 || ring[t] < 0 || driving[t] < SURELY_DRIVING || Number.isNaN(logDevelopment[t])) continue;
    residual[t] = logDevelopment[t] - centres[ring[t] * cogs + cog[t]];
    if (!Number.isNaN(residual[t])) slow.push({ off: Math.abs(residual[t]), perSpeed: 1 / log.speedMps[t] ** 2 });
  }
  if (slow.length < MIN_RECORDS) return null;
  const { relative, absoluteMps } = scatter(slow);
  return { relative, absoluteMps, bounded: within(residual, MOST_DEVIATIONS * relative) };
}

/** Splits the scatter into its relative and its absolute part by setting the slower half of the records against the faster. */
function scatter(records: { off: number; perSpeed: number }[]): { relative: number; absoluteMps: number } {
  const sorted = [...records].sort((a, b) => b.perSpeed - a.perSpeed);
  const halves = [sorted.slice(0, sorted.length / 2), sorted.slice(sorted.length / 2)].map((half) => ({
    variance: (DEVIATIONS_PER_MAD * (median(half, ({ off }) => off) as number)) ** 2,
    perSpeed: median(half, ({ perSpeed }) => perSpeed) as number,
  }));
  const [low, high] = halves;
  const apart = low.perSpeed - high.perSpeed;
  const absolute = apart > 0 ? Math.max(0, (low.variance - high.variance) / apart) : 0;
  return {
    relative: Math.max(LEAST, Math.sqrt(Math.max(0, high.variance - absolute * high.perSpeed))),
    absoluteMps: Math.sqrt(absolute),
  };
}

const within = (values: Float64Array, most: number): Float64Array =>
  values.map((value) => Math.max(-most, Math.min(most, value)));

/**
 * How many records share one error: 1 + 2 x sum of the autocorrelations, the variance inflation of a mean of correlated values (Bartlett
 * 1946). Gaps end a run of records.
 */
function sharedErrorS(timeS: Float64Array, residual: Float64Array, maxLag: number): number {
  let sum = 0;
  for (let lag = 1; lag <= maxLag; lag++) {
    let product = 0;
    let square = 0;
    for (let t = lag; t < residual.length; t++) {
      if (
        timeS[t] - timeS[t - lag] > NEIGHBOUR_STEP_S * lag ||
        Number.isNaN(residual[t]) ||
        Number.isNaN(residual[t - lag])
      )
        continue;
      product += residual[t] * residual[t - lag];
      square += (residual[t] ** 2 + residual[t - lag] ** 2) / 2;
    }
    const correlation = square > 0 ? product / square : 0;
    if (correlation < UNCORRELATED) break;
    sum += correlation;
  }
  return 1 + 2 * sum;
}
