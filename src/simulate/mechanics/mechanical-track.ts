import type { DropSideTrue } from '../setting/drop-sides.ts';

/** Samples a second of the columns of a track. */
export const TRACK_HZ = 8;

/** A press of the shifter that moved it. Cogs are indices, 0 = smallest. */
export interface CommandMade {
  readonly timeS: number;
  readonly fromCog: number;
  readonly toCog: number;
  readonly crankTurns: number;
}

/** The driving cog changed; -1 = chain lost. */
export interface CogChange {
  readonly timeS: number;
  readonly cog: number;
  readonly crankTurns: number;
}

/**
 * What really happened in one ride, before any sensor saw it: columns at `TRACK_HZ` with one shared index, and events by
 * true time in seconds since the start.
 */
export interface MechanicalTrack {
  readonly samples: number;
  readonly speedMps: Float64Array;
  readonly distanceM: Float64Array;
  readonly crankTurns: Float64Array;
  readonly powerW: Float64Array;
  /** Mean chain tension, N. */
  readonly tensionN: Float64Array;
  /** Cog that drives, -1 = chain lost. */
  readonly cog: Int8Array;
  readonly ring: Int8Array;
  /** 1 where the crank drove the wheel. */
  readonly driving: Uint8Array;
  /** 1 where satellites cannot be seen. */
  readonly covered: Uint8Array;
  /** 1 where the rider stood at a halt long enough for a recorder to pause. */
  readonly halted: Uint8Array;
  /** Moments at which the crank's and the wheel's magnet passed, s. */
  readonly crankEventS: readonly number[];
  readonly wheelEventS: readonly number[];
  readonly commands: readonly CommandMade[];
  readonly ringCommands: readonly { readonly timeS: number; readonly ring: number }[];
  readonly cogChanges: readonly CogChange[];
  readonly drops: readonly { readonly timeS: number; readonly side: DropSideTrue; readonly commandedCog: number }[];
  readonly skips: readonly { readonly timeS: number; readonly cog: number }[];
  readonly startCog: number;
  readonly startRing: number;
}
