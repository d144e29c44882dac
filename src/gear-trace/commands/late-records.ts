import { bisectLeft, median } from 'd3-array';
import type { Bike } from '../../drivetrain/bike.ts';
import type { Warning } from '../../errors/warning.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { logDevelopmentColumn, type PedallingSamples } from '../samples/pedalling-samples.ts';
import { type GearCommands, latestIndex } from './gear-commands.ts';

/** Code of the warning that gear records come late. */
export const gearRecordsLate = 'gear-records-late';
/** A record tells how late it is where none is near: within so many seconds before and after it. */
const QUIET_S = { before: 12, after: 7 };
/** The ratio before a shift is taken from so long before its record, and that after it from so long after, up to where other records are near. */
const SETTLED_S = { before: 8, after: 3 };
/** So many records of the ratio tell either. */
const LEAST_RATIOS = 3;
/** A shift is seen where the ratio's step is that of the cogs within this share of it, and wide enough to stand out. */
const STEP_WITHIN = 0.35;
const LEAST_STEP = 0.06;
/** So many shifts tell of a ride how late its records are. */
const LEAST_SHIFTS = 8;
/** No chain goes before it is asked to: records after which the ratio stepped so long before, on the middle one, come late, s. */
const LEAST_LATE_S = 1;
/** A step still longer before is no recorder's doing but a shift that was missed, and came through by itself before the next was asked for, s. */
const MOST_LATE_S = 5;
/** What the chain and the sensors take themselves and so hide of it, s (assumption of ours). */
const HIDDEN_S = 0.5;

/** By how many seconds a ride's gear records come after the chain went where they say, the middle one of them; 0 where that is not seen. */
export function recordsLateBy(
  log: RideLog,
  { cassette }: Pick<Bike, 'cassette'>,
  samples: PedallingSamples,
  commands: GearCommands,
): number {
  const ratio = logDevelopmentColumn(log, samples, 0);
  const { timeS, cog, ring } = commands;
  const leads: number[] = [];
  for (let k = 1; k < timeS.length; k++) {
    const isAlone =
      timeS[k] - timeS[k - 1] > QUIET_S.before &&
      !((timeS[k + 1] ?? Number.POSITIVE_INFINITY) - timeS[k] < QUIET_S.after);
    if (!isAlone || cog[k] < 0 || cog[k - 1] < 0 || cog[k] === cog[k - 1] || ring[k] !== ring[k - 1]) continue;
    const lead = leadOf(log.timeS, ratio, timeS[k], Math.log(cassette[cog[k - 1]] / cassette[cog[k]]));
    if (!Number.isNaN(lead)) leads.push(lead);
  }
  const lateS = leads.length < LEAST_SHIFTS ? 0 : (median(leads) as number);
  return lateS < LEAST_LATE_S ? 0 : lateS + HIDDEN_S;
}

/**
 * How long before a gear record the ratio went over half-way to where it stays after it, s, negative where that came after; NaN where the step
 * that the cogs make is not seen.
 */
function leadOf(timeS: Float64Array, ratio: Float64Array, recordS: number, step: number): number {
  if (Math.abs(step) < LEAST_STEP) return Number.NaN;
  const between = (fromS: number, toS: number): Float64Array =>
    ratio.subarray(bisectLeft(timeS, fromS), bisectLeft(timeS, toS)).filter((value) => !Number.isNaN(value));
  const before = between(recordS - QUIET_S.before, recordS - SETTLED_S.before);
  const after = between(recordS + SETTLED_S.after, recordS + QUIET_S.after);
  if (before.length < LEAST_RATIOS || after.length < LEAST_RATIOS) return Number.NaN;
  const start = median(before) as number;
  const seen = (median(after) as number) - start;
  if (Math.abs(seen / step - 1) > STEP_WITHIN) return Number.NaN;
  let first = bisectLeft(timeS, recordS + SETTLED_S.after);
  while (first > 0 && timeS[first - 1] >= recordS - SETTLED_S.before && (ratio[first - 1] - start) / seen > 0.5)
    first--;
  const leadS = recordS - timeS[first];
  return leadS > MOST_LATE_S ? Number.NaN : leadS;
}

/** The commands as they were given, where their records came so much later. */
export function earlier(commands: GearCommands, lateS: number, recordsS: Float64Array): GearCommands {
  const timeS = commands.timeS.map((s) => Math.max(0, s - lateS));
  return { ...commands, timeS, latest: latestIndex(recordsS, timeS) };
}

/** Says that gear records come late; null where they do not. */
export function lateRecordsWarning(lateS: number): Warning | null {
  if (lateS === 0) return null;
  return {
    code: gearRecordsLate,
    message: `Most gear records of this ride name a cog on which the chain was already: they were written down about ${Math.round(lateS)} s late. They are read as given so much earlier; how many turns of the cranks a shift took is told less surely for that.`,
  };
}
