import { longestRising } from './longest-rising.ts';
import { mainSpan } from './main-span.ts';

/** If more than this share of the records ran backwards, they are in another order, not faulty. */
const MOST_BACKWARD = 0.2;
/** A file that runs backwards oftener than this is in another order; a clock is not set back so often. */
const MOST_SET_BACK = 5;

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
 * over a fifth of them they are sorted instead: run by run where there are few, so that a clock set back shuffles no while of the ride into another.
 */
export function orderRecords(timeMs: Float64Array, runStarts: readonly number[]): RecordOrder {
  const byRun = sortRuns(timeMs, runStarts);
  const inStep = mainSpan(timeMs, byRun);
  const rising = longestRising(timeMs, inStep);
  const backward = inStep.length - rising.length;
  const clockJumps = timeMs.length - inStep.length;
  if (backward <= MOST_BACKWARD * inStep.length) return { order: rising, clockJumps, backward, sorted: false };
  const runs = setInOrder(timeMs, inStep);
  if (!runs) {
    return { order: inStep.sort((a, b) => timeMs[a] - timeMs[b] || a - b), clockJumps, backward: 0, sorted: true };
  }
  const order = longestRising(timeMs, runs);
  return { order, clockJumps, backward: inStep.length - order.length, sorted: runs.some((i, k) => i !== inStep[k]) };
}

/** `order` with the runs between its steps back put in order of their first time; null where there are too many to be a clock's doing. */
function setInOrder(timeMs: Float64Array, order: Uint32Array): Uint32Array | null {
  const starts = [0];
  for (let k = 1; k < order.length; k++) {
    if (timeMs[order[k]] >= timeMs[order[k - 1]]) continue;
    if (starts.length > MOST_SET_BACK) return null;
    starts.push(k);
  }
  const runs = starts.map((start, r) => order.subarray(start, starts[r + 1]));
  return Uint32Array.from(runs.sort((a, b) => timeMs[a[0]] - timeMs[b[0]]).flatMap((run) => [...run]));
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
