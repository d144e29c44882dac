/** Slower than this a bike may stand, and a zero repeats for ever. */
const MOVING_MPS = 1;
/** Across longer steps nothing is known of how the speed moved. */
const LONGEST_STEP_S = 10;
/** Of all changes this share is smaller than the step in which the column is written: a stray value or two is no step. */
const STRAY_SHARE = 0.01;
/** Fewer changes than this show no step. */
const LEAST_CHANGES = 50;
/**
 * Of a thousand readings of a moving bike one is repeated for so many times as long as its speed usually takes to move by a step: twelve to
 * fifteen times in simulated and in real rides, rounded to 0.1 m/s or to whole km/h.
 */
const LONGEST_REPEATS = 15;

/** How finely a speed column is written. */
export interface WrittenSpeed {
  /** The step between neighbouring values, m/s; NaN where too few changes show one. */
  readonly stepMps: number;
  /**
   * How many records in a row may show one value though it is measured: the coarser the step, and the less the speed changes from record to
   * record, the more. 1 where nothing repeats by itself, 0 where too few changes show it.
   */
  readonly repeatedFor: number;
}

/** Measures how finely a speed column is written, from the changes of a moving bike; those to or from NaN or over a pause are left out. */
export function writtenSpeed(timeS: Float64Array, speedMps: Float64Array): WrittenSpeed {
  const changes: number[] = [];
  let moved = 0;
  let records = 0;
  for (let i = 1; i < timeS.length; i++) {
    if (!(speedMps[i] > MOVING_MPS && speedMps[i - 1] > MOVING_MPS) || timeS[i] - timeS[i - 1] > LONGEST_STEP_S)
      continue;
    const change = Math.abs(speedMps[i] - speedMps[i - 1]);
    records++;
    moved += change;
    if (change > 0) changes.push(change);
  }
  if (changes.length < LEAST_CHANGES) return { stepMps: Number.NaN, repeatedFor: 0 };
  changes.sort((a, b) => a - b);
  const stepMps = changes[Math.floor(STRAY_SHARE * changes.length)];
  return { stepMps, repeatedFor: Math.ceil((LONGEST_REPEATS * stepMps * records) / moved) };
}
