import type { ShiftEvent } from '../shifts/ride-events.ts';
import { CLEAN_WITHIN_REVS, LATE_WITHIN_REVS } from '../shifts/turn-limits.ts';
import type { RevolutionClock } from '../shifts/turns/revolution-clock.ts';
import { roundOrNull } from './round-to.ts';

/**
 * Seconds after a shift's `at` by which the turns were pedalled that it is judged by, below 0 where its record was written down only after
 * them; null where they never were or the lag is not known.
 */
interface ShiftTurns {
  /** From when the turns were counted: where the sensors show the last command. */
  readonly fromS: number | null;
  readonly cleanUntilS: number | null;
  readonly lateUntilS: number | null;
  /** Null for a shift that was never done or not judged. */
  readonly doneS: number | null;
}

/**
 * Tells when a shift's turns were pedalled, so that a drawing shows the very turns that it was judged by: counted, as there, from where
 * the sensors show the last command of the burst.
 *
 * @param lagS the ride's sensor lag; NaN where it is not known
 */
export function shiftTurns(
  { timeS, lastTimeS, crankRevs }: Pick<ShiftEvent, 'timeS' | 'lastTimeS' | 'crankRevs'>,
  clock: RevolutionClock,
  lagS: number,
): ShiftTurns {
  const pedalledS = (revs: number): number | null => roundOrNull(clock.after(lastTimeS + lagS, revs) - timeS, 2);
  return {
    fromS: roundOrNull(lastTimeS + lagS - timeS, 2),
    cleanUntilS: pedalledS(CLEAN_WITHIN_REVS),
    lateUntilS: pedalledS(LATE_WITHIN_REVS),
    doneS: crankRevs === null ? null : pedalledS(crankRevs),
  };
}
