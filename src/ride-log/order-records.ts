import { longestRising } from './longest-rising.ts';

/** A break this long in the sorted times of one file is no pause: the clock was wrong on one side of it. */
const CLOCK_JUMP_MS = 48 * 3600 * 1000;
/** If more than this share of the records ran backwards, they are in another order, not faulty. */
const MOST_BACKWARD = 0.2;

/** Indices of the records to keep, by rising time (ties in the file's order), and how many were set aside and why. */
export interface RecordOrder {
  readonly order: Uint32Array;
  readonly clockJumps: number;
  readonly backward: number;
}

/**
 * Puts records in order. Runs (segments, laps, tracks) are sorted by their first time. Times more than two days from the
 * rest are of a clock that jumped: the largest group stays. Of the others the longest rising sequence stays, so that a single
 * wrong time costs one record, and a clock set back by a minute costs that minute, not the ride. Where that would cost
 * over a fifth of them they are sorted instead.
 */
export function orderRecords(timeMs: Float64Array, runStarts: readonly number[]): RecordOrder {
  const byRun = sortRuns(timeMs, runStarts);
  const inStep = mainGroup(timeMs, byRun);
  const rising = longestRising(timeMs, inStep);
  const backward = inStep.length - rising.length;
  const clockJumps = timeMs.length - inStep.length;
  if (backward > MOST_BACKWARD * inStep.length) {
    return { order: inStep.sort((a, b) => timeMs[a] - timeMs[b] || a - b), clockJumps, backward: 0 };
  }
  return { order: rising, clockJumps, backward };
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

/** The largest group of records whose sorted times have no break of two days, in the order given. */
function mainGroup(timeMs: Float64Array, order: Uint32Array): Uint32Array {
  const sorted = timeMs.slice().sort();
  let best = [0, sorted.length];
  let start = 0;
  let most = 0;
  for (let i = 1; i <= sorted.length; i++) {
    if (i < sorted.length && sorted[i] - sorted[i - 1] <= CLOCK_JUMP_MS) continue;
    if (i - start > most) {
      most = i - start;
      best = [start, i];
    }
    start = i;
  }
  if (most === sorted.length) return order;
  const [first, last] = [sorted[best[0]], sorted[best[1] - 1]];
  return order.filter((i) => timeMs[i] >= first && timeMs[i] <= last);
}
