import type { ShiftEvent } from '../ride-events.ts';
import { LATE_WITHIN_REVS } from '../turn-limits.ts';
import type { RevolutionClock } from '../turns/revolution-clock.ts';

/** A move of the chain at `atS`, after the command at `commandS`. */
interface MoveSince {
  readonly commandS: number;
  readonly atS: number;
  readonly fromCog: number;
  readonly toCog: number;
}

/**
 * Whether a move is the chain's going at last where a missed shift, or several in a row, should have brought it: on the way from their
 * old cog to the new one, and over five turns of the cranks after the last command, so that it is no late arrival.
 */
export type GoesAtLast = (move: MoveSince) => boolean;

/** A missed shift, from the cog on which a row of them began. */
type Missed = Pick<ShiftEvent, 'direction' | 'fromCog' | 'toCog'>;

/** Tells such moves by the judged shifts of the ride. */
export function goesAtLast(shifts: readonly ShiftEvent[], clock: RevolutionClock): GoesAtLast {
  const missed = new Map<number, Missed>();
  let before = null as Missed | null;
  for (const { outcome, direction, fromCog, toCog, lastTimeS } of shifts) {
    const goesOn = before?.direction === direction;
    before = outcome === 'missed' ? { direction, fromCog: before && goesOn ? before.fromCog : fromCog, toCog } : null;
    if (before) missed.set(lastTimeS, before);
  }
  return ({ commandS, atS, fromCog, toCog }) => {
    const shift = missed.get(commandS);
    if (!shift || clock.at(atS) - clock.at(commandS) <= LATE_WITHIN_REVS) return false;
    const way = Math.sign(shift.toCog - shift.fromCog);
    const [start, from, to, wanted] = [shift.fromCog, fromCog, toCog, shift.toCog].map((cog) => way * cog);
    return start <= from && from < to && to <= wanted;
  };
}
