import type { CommandedShift } from '../commands/commanded-shifts.ts';
import { firstAfter } from '../first-after.ts';
import type { RideInQuestion } from '../ride-in-question.ts';
import type { ShiftTiming } from '../stories/shift-timing.ts';
import { shiftOverS } from './shift-over.ts';

/** With less of its time driven, as the records show it, than this, what they do not tell of a shift is laid to that. */
const DRIVEN_SHARE = 0.5;

/**
 * Tells the shifts during which the legs hardly drove the wheel: from the command to the turns after which it is missed, or to the next
 * shift, the records show a driven ratio for less than half of the time. A freewheel turns alike whatever cog the chain is on, and the
 * first turns after a stand have no steady ratio.
 */
export function hardlyDriven(ride: RideInQuestion, timing: ShiftTiming) {
  const { log, trace } = ride;
  return (shift: CommandedShift): boolean => {
    const overS = shiftOverS(ride, timing, shift);
    let drivenS = 0;
    let allS = 0;
    for (let i = firstAfter(log.timeS, shift.lastTimeS); i < log.timeS.length && log.timeS[i] <= overS; i++) {
      allS += trace.samples.dtS[i];
      if (!Number.isNaN(trace.logDevelopment[i])) drivenS += trace.samples.dtS[i] * trace.driving[i];
    }
    return drivenS < DRIVEN_SHARE * allS;
  };
}
