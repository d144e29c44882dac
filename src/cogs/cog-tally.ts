import type { Direction } from '../shifts/ride-events.ts';

/**
 * Tally of the shifts that were commanded onto one cog in one direction. `cog` is a cassette index (0 = smallest).
 * `shifts` counts judged shifts only; `ghostShifts` counts unasked moves that landed on this cog in this direction.
 * `troubleRate` = (late + missed + overshot) / shifts; NaN with no judged shift. `low` and `high` bound its 95 % interval.
 */
export interface CogTally {
  readonly cog: number;
  readonly direction: Direction;
  readonly shifts: number;
  readonly late: number;
  readonly missed: number;
  readonly overshot: number;
  readonly ghostShifts: number;
  readonly troubleRate: number;
  readonly low: number;
  readonly high: number;
}
