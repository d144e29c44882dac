import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { firstAfter } from '../first-after.ts';

/** Seconds after a command in which a rider's legs may be softer for the shift's sake, as late sensors show them (assumption of ours). */
const SOFT_WITHIN_S = 3.3;
/** In the command's own second nothing of it shows yet. */
const SHOWN_AFTER_S = 0.3;
/** A ratio above the gear by more than this was not driven: in standard deviations of the record, and in the logarithm. */
const ABOVE = { deviations: 3, log: 0.03 };
/** What is held of a ride before it has told: as many records as these, and so many of them soft (assumption of ours). */
const BEFOREHAND = { records: 40, soft: 1 };
/** So many of the records show a ratio above the gear where nobody eases off: a rider begins to coast, a sensor errs (assumption of ours). */
const USUAL_SHARE = 0.03;
/** Softer seconds for each more that shows: the sensors show the old cog for a part of the time, and legs that trail by little look driven. */
const FOR_EACH_SHOWN = 2;
const MOST = 0.6;

/** The seconds after a ride's shifts in which its rider's legs may trail the wheel. */
export interface SoftAfterShift {
  /** Chance that a record so soon after a shift was not driven, 0 to 0.6. */
  readonly share: number;
  /** 1 for each record so soon after a shift. */
  readonly records: Uint8Array;
}

/**
 * Tells how often a ride's rider pedals softly while shifting, as riders are taught to: legs that turn a little slower than the chain would
 * drive show the ratio of a smaller cog. After a shift to a larger cog that looks as though the chain were still on the cog before. After one to a
 * smaller cog it lies above every gear that the chain can be on, and tells the habit.
 */
export function softAfterShift(log: RideLog, trace: RideTrace): SoftAfterShift {
  const records = new Uint8Array(log.timeS.length);
  const { model, commands } = trace;
  if (!model) return { share: 0, records };
  let [seen, soft] = [BEFOREHAND.records, BEFOREHAND.soft];
  for (let c = 1; c < commands.timeS.length; c++) {
    const [before, cog] = [commands.cog[c - 1], commands.cog[c]];
    if (cog === before || cog < 0 || before < 0) continue;
    const fromS = commands.timeS[c] + SHOWN_AFTER_S;
    const untilS = Math.min(commands.timeS[c] + SOFT_WITHIN_S, commands.timeS[c + 1] ?? Number.POSITIVE_INFINITY);
    for (let i = firstAfter(log.timeS, fromS); i < log.timeS.length && log.timeS[i] <= untilS; i++) {
      records[i] = 1;
      const level = model.logDevelopment[trace.ring[i] * model.cogs + cog];
      const lift = trace.logDevelopment[i] - level;
      if (cog > before || Number.isNaN(lift) || !(log.cadenceRpm[i] > PEDALLING_RPM)) continue;
      seen++;
      if (lift > ABOVE.log && lift > ABOVE.deviations * trace.deviation[i]) soft++;
    }
  }
  const share = FOR_EACH_SHOWN * Math.max(0, soft / seen - USUAL_SHARE);
  return { share: Math.min(MOST, share), records };
}
