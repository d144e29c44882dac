import { quantile } from 'd3-array';

/** Too few readings say nothing. */
const ENOUGH = 60;
/** No rider turns the cranks so fast, turns a second, and none pedals a ride at so few turns a minute. */
const MOST_RPS = 4;
/** A stray reading is no unit. */
const NEARLY_ALL = 0.99;

/**
 * Turns cadence that is written in turns a second into turns a minute, in place: where nearly every reading that is not 0 is under 4, and
 * some are no whole numbers. Returns whether it was. Cranks turn at 40 to 120 turns a minute.
 */
export function cadenceFromRps(cadence: Float64Array): boolean {
  const turning = cadence.filter((value) => value > 0);
  if (turning.length < ENOUGH || turning.every(Number.isInteger)) return false;
  if ((quantile(turning, NEARLY_ALL) as number) >= MOST_RPS) return false;
  for (let i = 0; i < cadence.length; i++) cadence[i] *= 60;
  return true;
}
