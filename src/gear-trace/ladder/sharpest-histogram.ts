import type { RideLog } from '../../ride-log/ride-log.ts';
import type { PedallingSamples } from '../samples/pedalling-samples.ts';
import type { DevelopmentHistogram } from './development-histogram.ts';
import { bandContrast } from './ladder-peaks.ts';
import { speedFollowsCadence } from './speed-follows-cadence.ts';
import { steadyHistogram } from './steady-histogram.ts';

/** Lags of the speed behind the cadence that are tried, s. */
const LAGS_S = [-1, -0.5, 0, 0.5, 1, 1.5, 2, 2.5, 3, 4];
/** Steady seconds below which a histogram shows no gears for sure. */
const MIN_STEADY_S = 120;
/** Contrast below which a ride shows no gears: computed speeds and hopeless noise lie under it, every real ride with gears seen so far over twice it. */
const MIN_CONTRAST = 0.06;

/** The histogram of developments at the speed lag that makes its gears stand out most. */
export interface SharpestHistogram {
  readonly histogram: DevelopmentHistogram;
  readonly speedLagS: number;
  readonly contrast: number;
  /** In words, why it shows no gears; null where it shows them. */
  readonly whyNone: string | null;
}

/** Tries a range of speed lags and takes the one at which the histogram shows most contrast. */
export function sharpestHistogram(log: RideLog, samples: PedallingSamples): SharpestHistogram {
  const tried = LAGS_S.map((speedLagS) => {
    const histogram = steadyHistogram(log, samples, speedLagS);
    return { histogram, speedLagS, contrast: histogram.totalS > 0 ? bandContrast(histogram) : 0 };
  });
  const sharpest = tried.reduce((best, one) => (one.contrast > best.contrast ? one : best));
  return { ...sharpest, whyNone: whyNoGears(log, samples, sharpest) };
}

function whyNoGears(
  log: RideLog,
  samples: PedallingSamples,
  { histogram: { totalS: steadyS }, contrast, speedLagS }: Omit<SharpestHistogram, 'whyNone'>,
): string | null {
  if (log.speedSource === 'computed')
    return 'The file says that its speed was computed, not ridden: speed over cadence does not show a gear.';
  if (steadyS < MIN_STEADY_S)
    return `Only ${Math.round(steadyS)} s of steady pedalling: ${MIN_STEADY_S} s are needed to see the gears.`;
  if (!speedFollowsCadence(log, samples, speedLagS))
    return 'Speed does not follow cadence as a chain makes it: it was computed, or the two come from different bikes.';
  if (contrast < MIN_CONTRAST)
    return 'Speed over cadence shows no separate gears: the speed is too coarse, or it was computed, not ridden.';
  return null;
}
