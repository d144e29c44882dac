import type { DevelopmentHistogram } from './development-histogram.ts';

/** One rung of the ladder of ratios: log development and the steady seconds around it. */
export interface Rung {
  readonly logDevelopment: number;
  readonly seconds: number;
}

/** Bandwidth (log) at which gears stand out, and one at which they blur into a hump. */
const BANDWIDTH = 0.013;
const BLURRED_BANDWIDTH = 0.06;
/** What lies so far about a peak (log) is the gear's. */
const REACH = 0.03;
/** A gear was ridden for this share of the ride, and for so many seconds, at least. */
const MIN_SHARE = 0.002;
const MIN_SECONDS = 20;
/** A peak must stand over the dale beside it by this factor. */
const MIN_RISE = 1.35;

/** The histogram smoothed by a Gaussian: seconds per unit of log development at each bin's middle. */
export function smoothed({ seconds, width }: DevelopmentHistogram, bandwidth = BANDWIDTH): Float64Array {
  const reach = Math.ceil((4 * bandwidth) / width);
  const kernel = Float64Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-((((i - reach) * width) / bandwidth) ** 2) / 2),
  );
  const area = kernel.reduce((a, value) => a + value, 0) * width;
  const density = new Float64Array(seconds.length);
  for (let b = 0; b < seconds.length; b++) {
    if (seconds[b] === 0) continue;
    for (let k = -reach; k <= reach; k++)
      if (b + k >= 0 && b + k < density.length) density[b + k] += (seconds[b] * kernel[k + reach]) / area;
  }
  return density;
}

/**
 * The peaks of a histogram of developments, rising: one for each gear that was ridden long enough to stand out.
 *
 * @param leastS seconds that a gear must have been ridden
 */
export function ladderPeaks(histogram: DevelopmentHistogram, leastS = MIN_SECONDS): Rung[] {
  const density = smoothed(histogram);
  const rungs: Rung[] = [];
  let dale = Number.POSITIVE_INFINITY;
  let candidate = -1;
  const accept = (): void => {
    if (candidate < 0) return;
    const reach = Math.round(REACH / histogram.width);
    let seconds = 0;
    let mean = 0;
    for (let b = Math.max(0, candidate - reach); b <= Math.min(histogram.seconds.length - 1, candidate + reach); b++) {
      seconds += histogram.seconds[b];
      mean += histogram.seconds[b] * (b + 0.5);
    }
    if (seconds < Math.max(leastS, MIN_SHARE * histogram.totalS)) return;
    rungs.push({ logDevelopment: histogram.lowest + histogram.width * (mean / seconds), seconds });
  };
  for (let b = 1; b + 1 < density.length; b++) {
    if (candidate >= 0 && density[b] < density[candidate] / MIN_RISE) {
      accept();
      candidate = -1;
      dale = density[b];
    }
    if (candidate < 0) dale = Math.min(dale, density[b]);
    if (
      density[b] > dale * MIN_RISE &&
      density[b] >= density[b - 1] &&
      (candidate < 0 || density[b] > density[candidate])
    )
      candidate = b;
  }
  accept();
  return rungs;
}

/**
 * How much sharper the histogram is than a smooth one, in nats: the mean log ratio of the density at 1.3 % to that at 6 %
 * bandwidth. Gears stand out as peaks; a speed that was computed, not ridden, gives a smooth hump near 0.
 */
export function bandContrast(histogram: DevelopmentHistogram): number {
  const fine = smoothed(histogram);
  const coarse = smoothed(histogram, BLURRED_BANDWIDTH);
  let sum = 0;
  for (let b = 0; b < fine.length; b++)
    if (histogram.seconds[b] > 0) sum += histogram.seconds[b] * Math.log(fine[b] / coarse[b]);
  return sum / Math.max(1, histogram.totalS);
}
