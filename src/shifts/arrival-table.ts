import type { RideTrace } from '../gear-trace/gear-trace.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { type CommandedShift, firstAfter } from './commanded-shifts.ts';
import { secondsEvidence } from './seconds-evidence.ts';

/**
 * How well each story of one shift fits the records around it. A story: the chain goes from the cog it was on to `finalCog`,
 * and the ratio follows `arrivalS` seconds after the command. `logLikelihood[f][a]` belongs to `finalCogs[f]` and
 * arrival `FIRST_ARRIVAL_S + a * ARRIVAL_STEP_S`, counted from the burst's last command; the last column is "not within the window" (the chain stayed).
 */
export interface ArrivalTable {
  readonly shift: CommandedShift;
  readonly startCog: number;
  readonly finalCogs: readonly number[];
  readonly logLikelihood: readonly Float64Array[];
  /** Records with a ratio after the command; 0 means that nothing was seen. */
  readonly seen: number;
}

export const FIRST_ARRIVAL_S = -1.5;
export const ARRIVAL_STEP_S = 0.25;
export const ARRIVALS = 64;
const BEFORE_S = 4.5;
/** How long after the next shift's own arrival records are still looked at. */
const AFTER_S = 2.5;
/** A healthy shift takes about this long, so that much of the lag is the chain's, the rest the sensors'. */
const HEALTHY_S = 0.5;
/** Beyond this the chain's move is no answer to the command. */
export const WINDOW_S = 14;
/** Shared error of all records of a window, in units of the ride's noise: sensors err in runs. */
const SHARED_ERRORS = [
  { shift: -0.8, weight: 0.2 },
  { shift: 0, weight: 0.6 },
  { shift: 0.8, weight: 0.2 },
];
/** The chain passes over the cogs between: each takes some of a second more. */
const RISE_S_PER_COG = 0.15;

/** What the chain did just before and just after a shift, as far as it is known: their effects overlap in the sensors. */
export interface Surroundings {
  /** The cog the shift starts from. */
  readonly startCog: number;
  /** The shift before brought the chain from `cog` to the start at `arrivalS` (as the sensors show it). */
  readonly before: { readonly cog: number; readonly arrivalS: number } | null;
  /** The shift after took the chain to `cog` at `arrivalS`. */
  readonly after: { readonly cog: number; readonly arrivalS: number } | null;
}

/** Smoothed unit step: the share of the change that a record shows `t` seconds after the ratio's middle. */
function rise(t: number, width: number): number {
  return 1 / (1 + Math.exp((-1.7 * t) / width));
}

/**
 * Weighs every story of a shift.
 *
 * @param riseWidthS how long the sensors smear a change of ratio, standard deviation in seconds
 * @param lagS how long after a command its effect may show: up to then the ratio still tells of the shift before, and records
 *   later than that after the next command belong to the next
 */
export function arrivalTable(
  log: RideLog,
  trace: RideTrace,
  shift: CommandedShift,
  riseWidthS: number,
  lagS: number,
  surroundings: Surroundings | null = null,
): ArrivalTable {
  const model = trace.model;
  if (!model) throw new TypeError('arrivalTable needs a ride with a gear model');
  const evidence = secondsEvidence(log, trace);
  const { before: shiftBefore, after: shiftAfter } = surroundings ?? { before: null, after: null };
  const endS = Math.min(shiftAfter ? shiftAfter.arrivalS + AFTER_S : shift.untilS + lagS, shift.lastTimeS + WINDOW_S);
  const from = firstAfter(log.timeS, shift.timeS - BEFORE_S);
  const to = firstAfter(log.timeS, endS);
  const seenFromS = shift.timeS + Math.max(0, lagS - HEALTHY_S);
  const before = firstAfter(log.timeS, seenFromS - 0.01) - 1;
  const startCog =
    surroundings?.startCog ?? (before >= 0 && trace.cog[before] >= 0 ? trace.cog[before] : shift.fromCog);
  const ring = ringAt(trace, before, to);
  const level = (cog: number): number => model.logDevelopment[ring * model.cogs + cog];
  /** The level that the records show where the chain is at `own` between the shifts around this one. */
  const amid = (i: number, own: number): number => {
    let shown = own;
    if (shiftBefore)
      shown =
        level(shiftBefore.cog) +
        rise(log.timeS[i] - shiftBefore.arrivalS, riseWidthS) * (shown - level(shiftBefore.cog));
    if (shiftAfter) shown += rise(log.timeS[i] - shiftAfter.arrivalS, riseWidthS) * (level(shiftAfter.cog) - shown);
    return shown;
  };
  const width = riseWidthS + RISE_S_PER_COG * Math.max(0, Math.abs(shift.toCog - startCog) - 1);

  const records: number[] = [];
  let seen = 0;
  for (let i = from; i < to; i++) {
    // records before the last change of ring, or of an earlier shift, are not this shift's
    if (Number.isNaN(trace.logDevelopment[i]) || trace.ring[i] !== ring) continue;
    if (!shiftBefore && log.timeS[i] < seenFromS && trace.cog[i] !== startCog) continue;
    // within a burst the chain is on its way and on no cog for long
    if (log.timeS[i] > shift.timeS && log.timeS[i] <= shift.lastTimeS) continue;
    records.push(i);
    if (log.timeS[i] > shift.lastTimeS) seen++;
  }

  const finalCogs = cogsInQuestion(startCog, shift, model.cogs);
  const logLikelihood = finalCogs.map((finalCog) => {
    const row = new Float64Array(ARRIVALS + 1);
    const total = new Float64Array(SHARED_ERRORS.length);
    const stayed = SHARED_ERRORS.map(({ shift: e }) =>
      records.map((i) => evidence(i, amid(i, level(startCog)) + e * model.noise)),
    );
    const arrived = SHARED_ERRORS.map(({ shift: e }) =>
      records.map((i) => evidence(i, amid(i, level(finalCog)) + e * model.noise)),
    );
    for (let a = 0; a <= ARRIVALS; a++) {
      const arrivalS =
        a === ARRIVALS ? Number.POSITIVE_INFINITY : shift.lastTimeS + FIRST_ARRIVAL_S + a * ARRIVAL_STEP_S;
      total.fill(0);
      records.forEach((i, r) => {
        const share = rise(log.timeS[i] - arrivalS, width);
        const between = share > 0.02 && share < 0.98;
        const expected = between ? amid(i, level(startCog) + share * (level(finalCog) - level(startCog))) : 0;
        for (let e = 0; e < total.length; e++)
          total[e] += between
            ? evidence(i, expected + SHARED_ERRORS[e].shift * model.noise)
            : (share < 0.5 ? stayed : arrived)[e][r];
      });
      row[a] = logMixture(total);
    }
    return row;
  });
  return { shift, startCog, finalCogs, logLikelihood, seen };
}

function logMixture(total: Float64Array): number {
  const top = Math.max(...total);
  let sum = 0;
  for (let e = 0; e < total.length; e++) sum += SHARED_ERRORS[e].weight * Math.exp(total[e] - top);
  return top + Math.log(sum);
}

/** The commanded cog, two beyond it, and all between it and the start. */
function cogsInQuestion(startCog: number, shift: CommandedShift, cogs: number): number[] {
  const beyond = shift.toCog >= shift.fromCog ? 1 : -1;
  const wanted = new Set([shift.toCog, shift.toCog + beyond, shift.toCog + 2 * beyond]);
  const step = Math.sign(shift.toCog - startCog);
  if (step !== 0) for (let cog = startCog; cog !== shift.toCog; cog += step) wanted.add(cog);
  return [...wanted].filter((cog) => cog >= 0 && cog < cogs);
}

function ringAt(trace: RideTrace, before: number, to: number): number {
  for (let i = Math.max(0, before); i < to; i++) if (trace.ring[i] >= 0) return trace.ring[i];
  return 0;
}
