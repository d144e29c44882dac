import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { nearNormalBelow } from '../../numeric/near-normal.ts';
import type { CommandedShift } from '../commands/commanded-shifts.ts';
import { firstAfter } from '../first-after.ts';
import type { RideInQuestion } from '../ride-in-question.ts';
import type { ShiftContext } from './shift-context.ts';

/** Where the grid of arrivals begins against the burst's last command, s. */
export const FIRST_ARRIVAL_S = -1.5;
/** Its step, s. */
export const ARRIVAL_STEP_S = 0.25;
/** How many arrivals it holds. */
export const ARRIVALS = 64;
/** Records so long before the command are looked at too. */
const BEFORE_S = 4.5;
/** The chain passes over the cogs between: each takes some of a second more. */
const RISE_S_PER_COG = 0.15;

/** One case of what a window leaves open. */
export interface OpenCase {
  readonly error: number;
  readonly nextS: number;
  readonly weight: number;
}

/**
 * What a window leaves open besides its story: a shared error of all its records (sensors err in runs; in standard deviations of each record),
 * and when the next shift shows itself, against the prompt moment (Infinity: it does not).
 */
const OPEN: readonly OpenCase[] = [
  { error: 0, nextS: 0, weight: 0.36 },
  { error: -0.8, nextS: 0, weight: 0.13 },
  { error: 0.8, nextS: 0, weight: 0.13 },
  { error: 0, nextS: -0.6, weight: 0.13 },
  { error: 0, nextS: 0.6, weight: 0.13 },
  { error: 0, nextS: 1.4, weight: 0.07 },
  { error: 0, nextS: Number.POSITIVE_INFINITY, weight: 0.05 },
];
/** Without a next shift in the window only the shared error is open. */
const OPEN_ALONE: readonly OpenCase[] = [
  { error: 0, nextS: 0, weight: 0.6 },
  { error: -0.8, nextS: 0, weight: 0.2 },
  { error: 0.8, nextS: 0, weight: 0.2 },
];

/** So many widths from its middle a rise is over, or has not begun. */
const RISEN = 3.53;

/** Smoothed unit step: the share of the change that a record shows `t` seconds after the ratio's middle. */
export function rise(t: number, width: number): number {
  const z = t / width;
  return z > RISEN ? 1 : z < -RISEN ? 0 : nearNormalBelow(z);
}

/** The records around one shift, with what they would show in each story. */
export interface ShiftWindow {
  readonly timeS: Float64Array;
  /** Indices of the records that speak of this shift. */
  readonly records: readonly number[];
  /** What is left open besides the story. */
  readonly open: readonly OpenCase[];
  /** How long the sensors smear this shift's change of ratio, s. */
  readonly width: number;
  /** The moments of arrival that are weighed, s. */
  readonly arrivalsS: Float64Array;
  /** Log development of a cog on the shift's ring. */
  level(cog: number): number;
  /** Log likelihood of record `i`, under what is open, where the chain stands at `own` between the shifts around this one. */
  likelihood(i: number, own: number, open: OpenCase): number;
}

/**
 * The window of one shift in one reading of its surroundings.
 *
 * @param riseWidthS how long the sensors smear a change of ratio, standard deviation in seconds
 * @throws TypeError for a ride without a gear model
 */
export function shiftWindow(
  { log, trace, clock, evidence }: RideInQuestion,
  shift: CommandedShift,
  context: ShiftContext,
  riseWidthS: number,
): ShiftWindow {
  const model = trace.model;
  if (!model) throw new TypeError('arrivalTable needs a ride with a gear model');
  const { startCog, before, after, endS } = context;
  const from = firstAfter(log.timeS, shift.timeS - BEFORE_S);
  const to = firstAfter(log.timeS, endS);
  const ring = ringWithin(trace, from, to);
  const level = (cog: number): number => model.logDevelopment[ring * model.cogs + cog];
  const firstS = clock.standing.left(shift.lastTimeS) + FIRST_ARRIVAL_S;
  return {
    timeS: log.timeS,
    records: windowRecords(log.timeS, trace, shift, context, { ring, from, to }),
    open: after ? OPEN : OPEN_ALONE,
    width: riseWidthS + RISE_S_PER_COG * Math.max(0, Math.abs(shift.toCog - startCog) - 1),
    arrivalsS: Float64Array.from({ length: ARRIVALS }, (_, a) => clock.standing.moment(firstS + a * ARRIVAL_STEP_S)),
    level,
    likelihood(i, own, { error, nextS }) {
      let shown = own;
      if (before)
        shown = level(before.cog) + rise(log.timeS[i] - before.shownS, riseWidthS) * (shown - level(before.cog));
      if (after) shown += rise(log.timeS[i] - after.shownS - nextS, riseWidthS) * (level(after.cog) - shown);
      return evidence(i, shown + error * trace.deviation[i]);
    },
  };
}

/** Records of the window that speak of this shift: with a ratio, on its ring, and not of the time before the shift before. */
function windowRecords(
  timeS: Float64Array,
  trace: RideTrace,
  shift: CommandedShift,
  { startCog, before }: ShiftContext,
  { ring, from, to }: { readonly ring: number; readonly from: number; readonly to: number },
): number[] {
  // a recorder that writes one row a second names a gear that was asked for before the row, and the chain may have followed by then
  const shownAtOnce = (i: number): boolean => timeS[i] === shift.timeS && trace.cog[i] === shift.toCog;
  const records: number[] = [];
  for (let i = from; i < to; i++) {
    if (Number.isNaN(trace.logDevelopment[i]) || trace.ring[i] !== ring) continue;
    if (timeS[i] <= shift.timeS && !before && trace.cog[i] !== startCog && !shownAtOnce(i)) continue;
    // within a burst the chain is on its way and on no cog for long
    if (timeS[i] > shift.timeS && timeS[i] <= shift.lastTimeS) continue;
    records.push(i);
  }
  return records;
}

function ringWithin(trace: RideTrace, from: number, to: number): number {
  const middle = Math.floor((from + to) / 2);
  for (let d = 0; d < to - from; d++) {
    if (trace.ring[middle + d] >= 0) return trace.ring[middle + d];
    if (trace.ring[middle - d] >= 0) return trace.ring[middle - d];
  }
  return 0;
}
