import type { CommandedShift } from '../commands/commanded-shifts.ts';
import type { RideInQuestion } from '../ride-in-question.ts';
import type { ShiftTiming } from '../stories/shift-timing.ts';
import { LATE_WITHIN_REVS } from '../turn-limits.ts';

/** When a shift is over, as the sensors show it, s: after the turns by which it is missed, or with the next shift. */
export const shiftOverS = (
  { clock }: Pick<RideInQuestion, 'clock'>,
  { lagS }: Pick<ShiftTiming, 'lagS'>,
  { lastTimeS, untilS }: CommandedShift,
): number => Math.min(clock.after(lastTimeS + lagS, LATE_WITHIN_REVS), untilS + lagS);
