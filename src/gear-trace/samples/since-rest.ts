import type { PedallingSamples } from './pedalling-samples.ts';

/** So long after a rest the sensors may not have settled, s. */
export const AFTER_REST_S = 6;
/** The legs rest where they stand so long, s. */
const LEAST_REST_S = 2;

/** Seconds since the first record of pedalling after a rest of the legs; Infinity from `AFTER_REST_S` on, and while they rest. */
export function sinceRest(
  timeS: Float64Array,
  { pedalling, dtS }: Pick<PedallingSamples, 'pedalling' | 'dtS'>,
): Float64Array {
  let restedS = 0;
  let startS = Number.NEGATIVE_INFINITY;
  return timeS.map((nowS, i) => {
    if (!pedalling[i]) {
      restedS += dtS[i];
      return Number.POSITIVE_INFINITY;
    }
    if (restedS >= LEAST_REST_S) startS = nowS;
    else if (restedS > 0) startS = Number.NEGATIVE_INFINITY;
    restedS = 0;
    return nowS - startS < AFTER_REST_S ? nowS - startS : Number.POSITIVE_INFINITY;
  });
}
