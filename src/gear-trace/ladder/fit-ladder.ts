import { studentT4 } from '../../numeric/student-t.ts';
import type { DevelopmentHistogram } from './development-histogram.ts';

/** A ladder of gears laid over a histogram of developments. */
export interface LadderFit {
  /** ln of the rollout in metres. */
  readonly logRollout: number;
  /** Standard deviation of the log development about a gear. */
  readonly noise: number;
  /** Mean log likelihood a second; higher is better. */
  readonly score: number;
  /** Share of the steady seconds in each gear. */
  readonly share: Float64Array;
}

/** Standard deviations of the log development that are tried: from a good wheel sensor to a poor satellite speed. */
const NOISES = [0.007, 0.012, 0.018, 0.027];
/** Density of what is in no gear, anywhere on the ladder. */
const OUTLIER_DENSITY = 0.02;
/** Rounds of expectation-maximisation: the shares hardly move after so many. */
const ROUNDS = 4;
/** A peak's tails are followed so far (log). */
const TAIL_REACH = 0.25;
/** The prior of a scale counts as though the ride had so many seconds at least. */
const LEAST_WEIGHED_S = 60;

/**
 * Finds the scale at which a bike's ladder of gears (ln of ring / cog) explains the histogram best: a mixture with one
 * narrow heavy-tailed peak a gear, its weights found by a few rounds of expectation-maximisation.
 *
 * @param logRatio ln(ring / cog) of each gear
 * @param logRollouts the scales to try
 * @param logPrior how likely each scale is before looking, in units of seconds of evidence
 */
export function fitLadder(
  histogram: DevelopmentHistogram,
  logRatio: Float64Array,
  logRollouts: readonly number[],
  logPrior: (logRollout: number) => number,
): LadderFit {
  let best: LadderFit | null = null;
  for (const noise of NOISES) {
    const kernel = peakKernel(noise, histogram.width);
    for (const logRollout of logRollouts) {
      const { share, score } = fitShares(histogram, logRatio, logRollout, kernel);
      const total = score + logPrior(logRollout) / Math.max(LEAST_WEIGHED_S, histogram.totalS);
      if (!best || total > best.score) best = { logRollout, noise, score: total, share };
    }
  }
  return best as LadderFit;
}

/** Student-t with 4 degrees of freedom, as a table over distances of whole bins. */
function peakKernel(noise: number, width: number): Float64Array {
  const table = new Float64Array(Math.ceil(TAIL_REACH / width));
  for (let d = 0; d < table.length; d++) table[d] = studentT4((d * width) / noise, noise);
  return table;
}

function fitShares(
  { lowest, width, seconds, totalS }: DevelopmentHistogram,
  logRatio: Float64Array,
  logRollout: number,
  kernel: Float64Array,
): { share: Float64Array; score: number } {
  const gears = logRatio.length;
  const share = new Float64Array(gears).fill(1 / gears);
  const bin = Int32Array.from(logRatio, (ratio) => Math.round((ratio + logRollout - lowest) / width - 0.5));
  let score = Number.NEGATIVE_INFINITY;
  const part = new Float64Array(gears);
  for (let round = 0; round < ROUNDS; round++) {
    const grown = new Float64Array(gears);
    let sum = 0;
    for (let b = 0; b < seconds.length; b++) {
      if (seconds[b] === 0) continue;
      let density = OUTLIER_DENSITY;
      for (let g = 0; g < gears; g++) {
        const d = Math.abs(b - bin[g]);
        part[g] = d < kernel.length ? share[g] * kernel[d] : 0;
        density += part[g];
      }
      sum += seconds[b] * Math.log(density);
      for (let g = 0; g < gears; g++) grown[g] += (seconds[b] * part[g]) / density;
    }
    score = sum / Math.max(totalS, 1);
    // a gear never ridden keeps a small share, so that one visit can still be seen
    const all = grown.reduce((a, value) => a + value, 0) + gears;
    for (let g = 0; g < gears; g++) share[g] = (grown[g] + 1) / all;
  }
  return { share, score };
}
