import { longestRising } from './longest-rising.ts';
import { mainSpan } from './main-span.ts';

/** If more than this share of the records ran backwards, they are in another order, not faulty. */
const MOST_BACKWARD = 0.2;

/** Indices of the records to keep, by rising time (ties in the file's order), and how many were set aside and why. */
export interface RecordOrder {
  readonly order: Uint32Array;
  readonly clockJumps: number;
  readonly backward: number;
  /** True where so many ran backwards that all were sorted. */
  readonly sorted: boolean;
}

/**
 * Puts records in order. Runs (segments, laps, tracks) are sorted by their first time. Times far from
 * the rest are of a clock that jumped (see `mainSpan`). Of the others the longest rising sequence stays, so that a single
 * wrong time costs one record, and a clock set back by a minute costs that minute, not the ride. Where that would cost
 * over a fifth of them they are sorted instead.
 */
export function orderRecords(timeMs: Float64Array, runStarts: readonly number[]): RecordOrder {
  const byRun = sortRuns(timeMs, runStarts);
  const inStep = mainSpan(timeMs, byRun);
  const rising = longestRising(timeMs, inStep);
  const backward = inStep.length - rising.length;
  const clockJumps = timeMs.length - inStep.length;
  if (backward > MOST_BACKWARD * inStep.length) {
    return { order: inStep.sort((a, b) => timeMs[a] - timeMs[b] || a - b), clockJumps, backward: 0, sorted: true };
  }
  return { order: rising, clockJumps, backward, sorted: false };
}

function sortRuns(timeMs: Float64Array, runStarts: readonly number[]): Uint32Array {
  const runs = runStarts
    .map((start, i) => ({ start, end: runStarts[i + 1] ?? timeMs.length }))
    .filter(({ start, end }) => end > start)
    .sort((a, b) => timeMs[a.start] - timeMs[b.start]);
  const order = new Uint32Array(timeMs.length);
  let filled = 0;
  for (const { start, end } of runs) for (let i = start; i < end; i++) order[filled++] = i;
  return order;
}
