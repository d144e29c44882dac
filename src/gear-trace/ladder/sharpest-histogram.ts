import type { RideLog } from '../../ride-log/ride-log.ts';
import type { PedallingSamples } from '../samples/pedalling-samples.ts';
import type { DevelopmentHistogram } from './development-histogram.ts';
import { bandContrast } from './ladder-peaks.ts';
import { speedFollowsCadence } from './speed-follows-cadence.ts';
import { steadyHistogram } from './steady-histogram.ts';

const LAGS_S = [-1, -0.5, 0, 0.5, 1, 1.5, 2, 2.5, 3, 4];
const MIN_STEADY_S = 120;
/** Contrast below which a ride shows no gears: computed speeds and hopeless noise lie under it, every real ride with gears seen so far over twice it. */
const MIN_CONTRAST = 0.06;

/** The histogram of developments at the speed lag that makes its gears stand out most. */
export interface SharpestHistogram {
  readonly histogram: DevelopmentHistogram;
  readonly speedLagS: number;
  readonly contrast: number;
  /** False where no gears show: `why` says so in words. */
  readonly shows: boolean;
  readonly why: string;
}

/** Tries a range of speed lags and takes the one at which the histogram shows most contrast. */
export function sharpestHistogram(log: RideLog, samples: PedallingSamples): SharpestHistogram {
  let best: { histogram: DevelopmentHistogram; speedLagS: number; contrast: number } | null = null;
  for (const speedLagS of LAGS_S) {
    const histogram = steadyHistogram(log, samples, speedLagS);
    const contrast = histogram.totalS > 0 ? bandContrast(histogram) : 0;
    if (!best || contrast > best.contrast) best = { histogram, speedLagS, contrast };
  }
  const found = best as { histogram: DevelopmentHistogram; speedLagS: number; contrast: number };
  const why = reason(log, samples, found.histogram.totalS, found.contrast, found.speedLagS);
  return { ...found, shows: why === '', why };
}

function reason(log: RideLog, samples: PedallingSamples, steadyS: number, contrast: number, speedLagS: number): string {
  if (log.speedSource === 'computed')
    return 'The file says that its speed was computed, not ridden: speed over cadence does not show a gear.';
  if (steadyS < MIN_STEADY_S)
    return `Only ${Math.round(steadyS)} s of steady pedalling: ${MIN_STEADY_S} s are needed to see the gears.`;
  if (!speedFollowsCadence(log, samples, speedLagS))
    return 'Speed does not follow cadence as a chain makes it: it was computed, or the two come from different bikes.';
  if (contrast < MIN_CONTRAST)
    return 'Speed over cadence shows no separate gears: the speed is too coarse, or it was computed, not ridden.';
  return '';
}
