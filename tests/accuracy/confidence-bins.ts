import type { ConfidenceBins } from './ride-score.ts';

/** Gathers events by their `confidence`; `sums` grows as they are added. */
export class ConfidenceGatherer {
  readonly sums = {
    count: Array<number>(10).fill(0),
    confidenceSum: Array<number>(10).fill(0),
    right: Array<number>(10).fill(0),
  } satisfies ConfidenceBins;

  add(confidence: number, right: boolean): void {
    const bin = Math.min(9, Math.floor(confidence * 10));
    this.sums.count[bin]++;
    this.sums.confidenceSum[bin] += confidence;
    if (right) this.sums.right[bin]++;
  }
}
