import { median } from 'd3-array';
import { densestWindow } from '../../numeric/densest-window.ts';
import { DEVIATIONS_PER_MAD } from '../../numeric/median-deviation.ts';

/** Where the main peak of log developments lies, and how wide it is (standard deviation, from the median absolute deviation). */
export interface Peak {
  readonly centre: number;
  readonly spread: number;
  readonly count: number;
}

/** Width of the window that is laid over the values, and how far from its middle a value still belongs to the peak (log). */
const WINDOW = 0.05;
const REACH = 0.045;

/**
 * Centre of the main peak: the densest window 5 % wide, then the median of what lies within 4.5 % of its middle. Freewheeling, which
 * lifts up to half of the values, does not move it. NaN values are passed over; `centre` is NaN where there are none.
 */
export function robustCentre(values: Iterable<number>): Peak {
  const sorted = Float64Array.from(values)
    .filter((value) => !Number.isNaN(value))
    .sort();
  let centre = densestWindow(sorted, WINDOW);
  let near = sorted;
  for (let round = 0; round < 3; round++) {
    near = sorted.filter((value) => Math.abs(value - centre) < REACH);
    centre = median(near) ?? centre;
  }
  const spread = DEVIATIONS_PER_MAD * (median(near, (value) => Math.abs(value - centre)) ?? Number.NaN);
  return { centre, spread, count: near.length };
}

/**
 * How far a peak's centre may be off, standard deviation (log).
 *
 * @param sharedErrorS seconds that share one error of speed or cadence: the centre is worth fewer than its seconds
 */
export const centreDeviation = ({ spread, count }: Peak, sharedErrorS: number): number =>
  spread / Math.sqrt(count / sharedErrorS);
