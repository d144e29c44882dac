import { sum } from 'd3-array';
import { longestRising } from './longest-rising.ts';
import { mainSpan } from './main-span.ts';

/** If more than this share of the records ran backwards, they are in another order, not faulty. */
const MOST_BACKWARD = 0.2;
/** A file that runs backwards oftener than this is in another order; a clock is not set back so often. */
const MOST_SET_BACK = 5;
/** Where the runs between steps back last longer together than the time they cover by more than this share, the same time was told twice: the clock was set back. */
const TOLD_TWICE = 0.2;

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
 * over a fifth of them they are sorted instead; but not where a clock set back tells a long time twice, since sorting would shuffle one while into the other.
 */
export function orderRecords(timeMs: Float64Array, runStarts: readonly number[]): RecordOrder {
  const byRun = sortRuns(timeMs, runStarts);
  const inStep = mainSpan(timeMs, byRun);
  const rising = longestRising(timeMs, inStep);
  const backward = inStep.length - rising.length;
  const clockJumps = timeMs.length - inStep.length;
  if (backward > MOST_BACKWARD * inStep.length && !wasSetBack(timeMs, inStep)) {
    return { order: inStep.sort((a, b) => timeMs[a] - timeMs[b] || a - b), clockJumps, backward: 0, sorted: true };
  }
  return { order: rising, clockJumps, backward, sorted: false };
}

/** Whether the times of `order` rise in a few runs that cover the same time more than once. */
function wasSetBack(timeMs: Float64Array, order: Uint32Array): boolean {
  const runs: { readonly firstMs: number; lastMs: number }[] = [];
  for (const i of order) {
    const run = runs.at(-1);
    if (run && timeMs[i] >= run.lastMs) run.lastMs = timeMs[i];
    else runs.push({ firstMs: timeMs[i], lastMs: timeMs[i] });
    if (runs.length > MOST_SET_BACK + 1) return false;
  }
  const lasted = sum(runs, ({ firstMs, lastMs }) => lastMs - firstMs);
  return lasted > (1 + TOLD_TWICE) * coveredMs(runs);
}

/** The time that any of the runs covers. */
function coveredMs(runs: readonly { readonly firstMs: number; readonly lastMs: number }[]): number {
  let covered = 0;
  let untilMs = Number.NEGATIVE_INFINITY;
  for (const { firstMs, lastMs } of [...runs].sort((a, b) => a.firstMs - b.firstMs)) {
    covered += Math.max(0, lastMs - Math.max(firstMs, untilMs));
    untilMs = Math.max(untilMs, lastMs);
  }
  return covered;
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
