import type { RevolutionClock } from './revolution-clock.ts';

/** So much of a turn tells that the cranks turn; at more than this many seconds after a command they stood at the time. */
const TURNING_REVS = 0.05;
const SOON_S = 0.5;

/**
 * The moment from which the sensors can show the chain's answer to a command that they saw at `timeS`: at once, or when the cranks
 * turn again.
 */
export function turningFrom(clock: RevolutionClock, timeS: number): number {
  const turnedS = clock.after(timeS, TURNING_REVS);
  return clock.standing.left(turnedS) - clock.standing.left(timeS) > SOON_S ? turnedS : timeS;
}
