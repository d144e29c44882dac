import { median } from 'd3-array';
import { halfSampleMode } from '../numeric/half-sample-mode.ts';

/** Where the main peak of log developments lies, and how wide it is (standard deviation, from the median absolute deviation). */
export interface Peak {
  readonly centre: number;
  readonly spread: number;
  readonly count: number;
}

const REACH = 0.04;

/**
 * Centre of the main peak: the half-sample mode, then the median of what lies within 4 % of it. Freewheeling, which
 * lifts up to half of the values, does not move it. NaN values are passed over; `centre` is NaN where there are none.
 */
export function robustCentre(values: Iterable<number>): Peak {
  const sorted = Float64Array.from(values)
    .filter((value) => !Number.isNaN(value))
    .sort();
  let centre = halfSampleMode(sorted);
  let near = sorted;
  for (let round = 0; round < 3; round++) {
    near = sorted.filter((value) => Math.abs(value - centre) < REACH);
    centre = median(near) ?? centre;
  }
  const spread = 1.4826 * (median(near, (value) => Math.abs(value - centre)) ?? Number.NaN);
  return { centre, spread, count: near.length };
}
