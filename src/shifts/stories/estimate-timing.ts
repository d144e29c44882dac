import { max, median } from 'd3-array';
import type { CommandedShift } from '../commands/commanded-shifts.ts';
import type { RideInQuestion } from '../ride-in-question.ts';
import { magnetChance } from '../turns/magnet-chance.ts';
import { type ArrivalTable, arrivalTable } from './arrival-table.ts';
import { shiftContexts } from './shift-context.ts';
import type { ShiftTiming } from './shift-timing.ts';
import { type WeighedLags, weighLags } from './weigh-lags.ts';

/** The usual one first: it stands where the shifts tell none. */
const WIDTHS_S = [0.45, 0.2, 0.9, 1.5];
/** So many shifts tell enough, and no more are weighed. */
const MAX_SHIFTS = 120;
/** A shift tells the timing where nothing was asked for so long before it, nor after it, and the legs pedalled for so long after it, s. */
const CLEAR = { quietS: 4, followedS: 5, pedalledS: 4 };
/** Jitter of whole-second and of exact gear records (assumption; devices seen give or take up to 1 s). */
const JITTER_S = { wholeSeconds: 0.25, exact: 0.16 };
/** The chain's start is looked up as though sensors were not late at all: later, a sensor that is not late shows the new cog already. */
const NO_LAG_S = 0;
/** A turn of the cranks where no shift shows one, s. */
const USUAL_TURN_S = 0.75;

/**
 * Finds the lag and the smearing at which the ride's shifts, taken together, look like shifts: most of them done within a turn
 * of the cranks, some late, a few not at all. What the shifts leave open of the lag is carried into the jitter: where few tell it, no shift is
 * surely late.
 */
export function estimateTiming(ride: RideInQuestion, shifts: readonly CommandedShift[]): ShiftTiming {
  const jitterS = ride.log.gearRecords.wholeSeconds ? JITTER_S.wholeSeconds : JITTER_S.exact;
  const clear = [...shifts.keys()].filter((j) => {
    const shift = shifts[j];
    return (
      shift.quietS >= CLEAR.quietS &&
      shift.untilS - shift.lastTimeS >= CLEAR.followedS &&
      shift.pedalledS >= CLEAR.pedalledS
    );
  });
  const every = Math.max(1, clear.length / MAX_SHIFTS);
  const chosen = Array.from({ length: Math.min(clear.length, MAX_SHIFTS) }, (_, i) => clear[Math.floor(i * every)]);
  const magnet = magnetChance(ride.log);
  const turnS = median(chosen, (j) => ride.clock.after(shifts[j].lastTimeS, 1) - shifts[j].lastTimeS) ?? USUAL_TURN_S;
  const readings: (WeighedLags & { riseWidthS: number })[] = [];
  for (const riseWidthS of WIDTHS_S) {
    const tables = chosen
      .map((j) => {
        const [context] = shiftContexts(ride, shifts, j, NO_LAG_S);
        return arrivalTable(ride, shifts[j], { ...context, before: null, after: null }, riseWidthS);
      })
      .filter(tellsTiming);
    readings.push({ riseWidthS, ...weighLags(tables, { riseWidthS, jitterS }, ride, magnet, turnS) });
  }
  const { steadyLagS, lagTurns, riseWidthS, lagSpreadS } = readings.reduce((a, b) => (b.logFit > a.logFit ? b : a));
  return {
    lagS: steadyLagS + lagTurns * turnS,
    steadyLagS,
    lagTurns,
    riseWidthS,
    jitterS: Math.hypot(jitterS, lagSpreadS),
    lagSpreadS,
  };
}

/** Whether a shift tells how late the sensors are: the chain was where it was thought to be, and went to the cog asked for. */
function tellsTiming({ stories: [straight], shift, context, stay, seen }: ArrivalTable): boolean {
  return seen >= 3 && context.startCog === shift.fromCog && (max(straight.byArrival) as number) > stay;
}
