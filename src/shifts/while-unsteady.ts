import type { RideTrace } from '../gear-trace/gear-trace.ts';

/** A drift shows only once it has gone half-way to the next cog, and a shift is judged by records about it: both together, s (assumption of ours). */
const ABOUT_S = 15;

/** Whether a stretch of time touches a spell in which the ride's speed drifted. */
export const whileUnsteady = ({ unsteady }: Pick<RideTrace, 'unsteady'>, fromS: number, toS = fromS): boolean =>
  unsteady.some((spell) => fromS < spell.toS + ABOUT_S && toS > spell.fromS - ABOUT_S);
