import { median } from 'd3-array';
import { DEVIATIONS_PER_MAD } from '../../numeric/median-deviation.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { logDevelopmentColumn, type PedallingSamples } from '../samples/pedalling-samples.ts';
import { type Peak, robustCentre } from '../samples/robust-centre.ts';
import type { SettledSamples } from '../samples/settled-samples.ts';

/** The development of each commanded gear as the ride shows it. Peaks are indexed `ring * cogs + cog`. */
export interface MeasuredGears {
  readonly peaks: readonly Peak[];
  /** Lag of speed behind cadence that makes the peaks sharpest while speed changes, s. */
  readonly speedLagS: number;
  /** Standard deviation of the log development around its gear's peak; NaN without enough settled pedalling. */
  readonly noise: number;
}

/** Lags tried, s. */
const LAGS_S = Array.from({ length: 29 }, (_, i) => -2.5 + i * 0.25);
/** The speed changes where its logarithm does by more than this in a second; fewer such records tell no lag. */
const ACCELERATING_PER_S = 0.015;
const MIN_ACCELERATING = 60;
/** Records from which on a gear has a peak to measure against, and how far off it (log) a record still counts as noise about it. */
const MIN_RECORDS = 5;
const NOISE_REACH = 0.06;
/** Fewer records about their peaks show no noise. */
const MIN_NOISE_RECORDS = 30;
/** Deviation of the log development about its gear's peak while speed changes, the share of it that lies anywhere, and how far that reaches. Assumptions of ours. */
const NEAR = 0.02;
const ELSEWHERE = 0.3;
const REACH = 0.15;
/** The normal distribution's height, of distances without a sign. */
const NEAR_DENSITY = 2 / (NEAR * Math.sqrt(2 * Math.PI));

/** Measures each commanded gear's development in settled pedalling, with the speed lag that fits them best. */
export function measureGears(log: RideLog, samples: PedallingSamples, settled: SettledSamples): MeasuredGears {
  let best = measureAt(log, samples, settled, 0);
  let bestFit = fitOf(log, samples, settled, best);
  for (const lag of LAGS_S) {
    if (lag === 0) continue;
    const tried = measureAt(log, samples, settled, lag);
    const fit = fitOf(log, samples, settled, tried);
    if (fit > bestFit) {
      best = tried;
      bestFit = fit;
    }
  }
  return best;
}

function measureAt(log: RideLog, samples: PedallingSamples, settled: SettledSamples, speedLagS: number): MeasuredGears {
  const column = logDevelopmentColumn(log, samples, speedLagS);
  const peaks = settled.map((indices) => robustCentre(Float64Array.from(indices, (i) => column[i])));
  const off: number[] = [];
  settled.forEach((indices, gear) => {
    const { centre, count } = peaks[gear];
    if (count < MIN_RECORDS) return;
    for (const i of indices) {
      const distance = Math.abs(column[i] - centre);
      if (distance < NOISE_REACH) off.push(distance);
    }
  });
  const noise = off.length >= MIN_NOISE_RECORDS ? DEVIATIONS_PER_MAD * (median(off) as number) : Number.NaN;
  return { peaks, speedLagS, noise };
}

/**
 * Mean log likelihood of what lies about the gears' peaks while speed changes, as far as it lies there at all: much of it may be soft
 * pedalling, of which no lag makes a gear. Where the speed seldom changes, -Infinity, so that no lag is preferred.
 */
function fitOf(log: RideLog, samples: PedallingSamples, settled: SettledSamples, measured: MeasuredGears): number {
  const column = logDevelopmentColumn(log, samples, measured.speedLagS);
  let sum = 0;
  let count = 0;
  settled.forEach((indices, gear) => {
    const { centre, count: pedalled } = measured.peaks[gear];
    if (pedalled < MIN_RECORDS) return;
    for (const i of indices) {
      const change = Math.abs(samples.accelerationMps2[i]) / log.speedMps[i];
      if (!(change > ACCELERATING_PER_S) || Number.isNaN(column[i])) continue;
      const onGear = Math.exp(-(((column[i] - centre) / NEAR) ** 2) / 2);
      sum += Math.log((1 - ELSEWHERE) * onGear * NEAR_DENSITY + ELSEWHERE / REACH);
      count++;
    }
  });
  return count >= MIN_ACCELERATING ? sum / count : Number.NEGATIVE_INFINITY;
}
