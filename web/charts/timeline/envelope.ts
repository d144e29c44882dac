/** Smallest and largest value of each bucket of `size` samples; NaN where a bucket holds no value. */
interface Level {
  readonly size: number;
  readonly low: Float32Array;
  readonly high: Float32Array;
}

/** A column with its smallest and largest values at several coarsenesses, so that any zoom draws about as many points as pixels. */
export interface Envelope {
  readonly values: Float32Array;
  readonly levels: readonly Level[];
}

const STEP = 4;

function coarser(low: Float32Array, high: Float32Array, size: number): Level {
  const buckets = Math.ceil(low.length / STEP);
  const level = {
    size,
    low: new Float32Array(buckets).fill(Number.NaN),
    high: new Float32Array(buckets).fill(Number.NaN),
  };
  for (let i = 0; i < low.length; i++) {
    if (Number.isNaN(low[i])) continue;
    const bucket = Math.floor(i / STEP);
    if (!(level.low[bucket] <= low[i])) level.low[bucket] = low[i];
    if (!(level.high[bucket] >= high[i])) level.high[bucket] = high[i];
  }
  return level;
}

/** Builds the coarser levels of a column (NaN = no value), each a quarter of the one before. */
export function makeEnvelope(values: Float32Array): Envelope {
  const levels: Level[] = [{ size: 1, low: values, high: values }];
  while (levels[levels.length - 1].low.length > 256) {
    const last = levels[levels.length - 1];
    levels.push(coarser(last.low, last.high, last.size * STEP));
  }
  return { values, levels };
}

/** Called with a pixel column and the smallest and largest values in it. */
export type ColumnSink = (xPx: number, low: number, high: number) => void;

/**
 * Goes over the samples `from` up to but not `to` and hands out one pixel column at a time. `xOf` gives a sample's
 * place in pixels and must not fall. Columns without any value are left out. At most about four buckets a pixel are
 * looked at, however long the ride.
 */
export function eachColumn(
  envelope: Envelope,
  from: number,
  to: number,
  xOf: (sample: number) => number,
  sink: ColumnSink,
): void {
  if (to <= from) return;
  const widthPx = Math.max(1, xOf(to - 1) - xOf(from));
  const perPixel = (to - from) / widthPx;
  const level = [...envelope.levels].reverse().find(({ size }) => size <= Math.max(1, perPixel)) ?? envelope.levels[0];
  let column = Number.NaN;
  let low = Number.NaN;
  let high = Number.NaN;
  const last = Math.ceil(to / level.size);
  for (let bucket = Math.floor(from / level.size); bucket < last; bucket++) {
    const x = Math.round(xOf(Math.max(from, bucket * level.size)));
    if (x !== column) {
      if (!Number.isNaN(low)) sink(column, low, high);
      column = x;
      low = Number.NaN;
      high = Number.NaN;
    }
    if (!(low <= level.low[bucket]) && !Number.isNaN(level.low[bucket])) low = level.low[bucket];
    if (!(high >= level.high[bucket]) && !Number.isNaN(level.high[bucket])) high = level.high[bucket];
  }
  if (!Number.isNaN(low)) sink(column, low, high);
}
