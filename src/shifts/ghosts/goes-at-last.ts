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
 * The turns after the last command from which on a move no longer counts as the missed shift's own late arrival: a little below the limit
 * of late shifts, since the turns of a move are known only to about one and the shift is already judged as one that did not arrive (assumption of ours).
 */
const LEAST_REVS = LATE_WITHIN_REVS - 1;

/**
 * Whether a move is the chain's going at last where a missed shift, or several in a row, should have brought it: on the way from their
 * old cog to the new one, and so long after the last command that it is no late arrival. A click away and back at once is no shift and
 * leaves the missed one as it was.
 */
export type GoesAtLast = (move: MoveSince) => boolean;

/** A missed shift, from the cog on which a row of them began. */
type Missed = Pick<ShiftEvent, 'direction' | 'fromCog' | 'toCog'>;

/** Tells such moves by the judged shifts of the ride. */
export function goesAtLast(shifts: readonly ShiftEvent[], clock: RevolutionClock): GoesAtLast {
  const asked: { readonly lastTimeS: number; readonly missed: Missed | null }[] = [];
  let before = null as Missed | null;
  for (const { outcome, direction, fromCog, toCog, lastTimeS } of shifts) {
    const goesOn = before?.direction === direction;
    before = outcome === 'missed' ? { direction, fromCog: before && goesOn ? before.fromCog : fromCog, toCog } : null;
    asked.push({ lastTimeS, missed: before });
  }
  return ({ commandS, atS, fromCog, toCog }) => {
    const shift = asked.findLast(({ lastTimeS }) => lastTimeS <= commandS)?.missed;
    if (!shift || clock.at(atS) - clock.at(commandS) <= LEAST_REVS) return false;
    const way = Math.sign(shift.toCog - shift.fromCog);
    const [start, from, to, wanted] = [shift.fromCog, fromCog, toCog, shift.toCog].map((cog) => way * cog);
    return start <= from && from < to && to <= wanted;
  };
}
