import type { Direction } from '../shifts/ride-events.ts';
import type { TroubleTally } from './trouble-tally.ts';

/**
 * Tally of the shifts that were commanded onto one cog in one direction. `cog` is a cassette index (0 = smallest).
 * `ghostShifts` counts unasked moves that landed on this cog in this direction.
 */
export interface CogTally extends TroubleTally {
  readonly cog: number;
  readonly direction: Direction;
  /** Chains lost past this cog in this direction: only past the smallest and the largest. Those lost on another side, or on none that is known, belong to no cog. */
  readonly chainDrops: number;
  /** How sure each of them is, 0 to 1. */
  readonly dropConfidences: readonly number[];
}
