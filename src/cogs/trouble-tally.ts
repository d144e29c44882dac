import { wilsonInterval } from '../numeric/wilson-interval.ts';
import type { Direction, RideEvents } from '../shifts/ride-events.ts';

/**
 * How often shifts went wrong. `shifts` counts judged ones only; `troubleRate` = (late + missed + overshot) / shifts, NaN with no
 * judged shift. `low` and `high` bound its 95 % interval (Wilson), 0 and 1 then.
 */
export interface TroubleTally {
  readonly shifts: number;
  readonly late: number;
  readonly missed: number;
  readonly overshot: number;
  readonly ghostShifts: number;
  readonly troubleRate: number;
  readonly low: number;
  readonly high: number;
}

/** Shifts and unasked moves, of a ride, of several or of a part of one. */
type Moves = Pick<RideEvents, 'shifts' | 'ghostShifts'>;

/** Those of the moves that were commanded onto one cog (cassette index) in one direction, or went there unasked. */
export function movesOnto({ shifts, ghostShifts }: Moves, cog: number, direction: Direction): Moves {
  return {
    shifts: shifts.filter((shift) => shift.toCog === cog && shift.direction === direction),
    ghostShifts: ghostShifts.filter(
      (ghost) => ghost.toCog === cog && (ghost.toCog > ghost.fromCog ? 'to-larger' : 'to-smaller') === direction,
    ),
  };
}

/** Tallies moves. Unjudged shifts do not count. */
export function tallyTrouble(moves: Moves): TroubleTally {
  const count = { clean: 0, late: 0, missed: 0, overshot: 0, unjudged: 0 };
  for (const shift of moves.shifts) count[shift.outcome]++;
  const { late, missed, overshot } = count;
  const trouble = late + missed + overshot;
  const shifts = count.clean + trouble;
  return {
    shifts,
    late,
    missed,
    overshot,
    ghostShifts: moves.ghostShifts.length,
    troubleRate: trouble / shifts,
    ...wilsonInterval(trouble, shifts),
  };
}
