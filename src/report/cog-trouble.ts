import type { Direction } from '../shifts/ride-events.ts';

/** Trouble of the shifts onto one cog in one direction. Fits a report's `cogs`. */
export interface CogTrouble {
  readonly teeth: number;
  readonly direction: Direction;
  readonly shifts: number;
  readonly troubleRate: number | null;
  readonly low: number;
  readonly high: number;
  /** Unasked moves onto the cog in that direction. */
  readonly ghostShifts?: number;
  /** Chains lost past the cog in that direction. */
  readonly chainDrops?: number;
  /** How many of those are sure: all, where it is not told. */
  readonly sureChainDrops?: number;
}

/** Shifts before an adjustment against those after it, by cog and direction. */
export interface BeforeAfterByCog {
  readonly before: readonly CogTrouble[];
  readonly after: readonly CogTrouble[];
}

/** The teeth of the cogs, smallest first, each once. */
export const teethOf = (cogs: readonly CogTrouble[]): number[] =>
  [...new Set(cogs.map(({ teeth }) => teeth))].sort((a, b) => a - b);
