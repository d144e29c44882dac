import { median } from 'd3-array';

/** A value and how much it counts. */
export interface Weighted {
  readonly value: number;
  readonly weight: number;
}

/** The first value, rising, at which half of all weight is reached; NaN where there is none. */
export function weightedMedian(entries: readonly Weighted[]): number {
  const sorted = [...entries].sort((a, b) => a.value - b.value);
  const half = sorted.reduce((sum, entry) => sum + entry.weight, 0) / 2;
  let sum = 0;
  for (const entry of sorted) {
    sum += entry.weight;
    if (sum >= half) return entry.value;
  }
  return median(sorted, (entry) => entry.value) ?? Number.NaN;
}
