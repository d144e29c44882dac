import type { PedallingSamples } from './pedalling-samples.ts';

/** So long after a rest the sensors may not have settled, s. */
export const AFTER_REST_S = 6;
/** The legs rest where they stand so long, s. */
const LEAST_REST_S = 2;

/** The rests of a ride by what came after them. Columns share the ride log's index. */
export interface Rests {
  /** Seconds since the first record of pedalling after a rest of the legs; Infinity from `AFTER_REST_S` on, and while they rest. */
  readonly sinceS: Float64Array;
  /** When the rest began that ended with this record, s; NaN where none ended with it. */
  readonly beganS: Float64Array;
}

/** Finds the rests of the legs. A cadence that is missing says neither that they rest nor that they start. */
export function restsOf(
  timeS: Float64Array,
  { pedalling, cadenceRpm }: Pick<PedallingSamples, 'pedalling' | 'cadenceRpm'>,
): Rests {
  const sinceS = new Float64Array(timeS.length).fill(Number.POSITIVE_INFINITY);
  const beganS = new Float64Array(timeS.length).fill(Number.NaN);
  let restS = Number.NaN;
  let startS = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < timeS.length; i++) {
    if (Number.isNaN(cadenceRpm[i])) {
      restS = Number.NaN;
      startS = Number.NEGATIVE_INFINITY;
    } else if (!pedalling[i]) {
      if (i === 0 || pedalling[i - 1]) restS = timeS[i];
    } else {
      if (timeS[i] - restS >= LEAST_REST_S) {
        startS = timeS[i];
        beganS[i] = restS;
      } else if (!Number.isNaN(restS)) startS = Number.NEGATIVE_INFINITY;
      restS = Number.NaN;
      if (timeS[i] - startS < AFTER_REST_S) sinceS[i] = timeS[i] - startS;
    }
  }
  return { sinceS, beganS };
}
