import type { ShiftEvent, UnjudgedReason } from '../ride-events.ts';
import { unjudged } from '../unjudged.ts';
import type { CommandedShift } from './commanded-shifts.ts';

const REACTION_S = 5;
/** Chances that a shift was missed when the rider reacts so, and when not (assumptions of ours: nobody has measured them). */
const AFTER_REACTION = 0.35;
const WITHOUT_REACTION = 0.01;
const USUALLY_MISSED = 0.03;

/**
 * Shifts of a ride without cadence, or without a speed that shows the gears (`because`). Nothing shows where the chain was, so none is
 * judged; but riders answer a missed shift by pushing again and coming back one, or by going back and trying again, and that pattern is
 * kept as weak evidence.
 */
export function reactionShifts(commanded: readonly CommandedShift[], because: UnjudgedReason): ShiftEvent[] {
  return commanded.map((shift, i) => {
    const next = commanded[i + 1];
    const afterNext = commanded[i + 2];
    const pushedAgain =
      within(shift, next) &&
      next.direction === shift.direction &&
      within(next, afterNext) &&
      afterNext.direction !== shift.direction;
    const triedAgain =
      within(shift, next) && next.toCog === shift.fromCog && within(next, afterNext) && afterNext.toCog === shift.toCog;
    const missed = pushedAgain || triedAgain ? AFTER_REACTION : WITHOUT_REACTION;
    return {
      timeS: shift.timeS,
      lastTimeS: shift.lastTimeS,
      fromCog: shift.fromCog,
      toCog: shift.toCog,
      direction: shift.direction,
      cogsToCross: shift.cogsToCross,
      ...unjudged(because),
      probability: { clean: 1 - missed, late: 0, missed, overshot: 0 },
      expected: { clean: 1 - USUALLY_MISSED, late: 0, missed: USUALLY_MISSED, overshot: 0 },
      torqueNm: Number.NaN,
      cadenceRpm: Number.NaN,
      weak: true,
    };
  });
}

function within(a: CommandedShift, b: CommandedShift | undefined): b is CommandedShift {
  return b !== undefined && b.timeS - a.timeS <= REACTION_S;
}
