import type { GearModel } from '../../gear-trace/gear-model.ts';
import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { firstAfter } from '../first-after.ts';
import { losesPower } from './loses-power.ts';

/** Commands this long before the dip, the sensors' lag apart, may still be at work. */
const QUIET_BEFORE_S = 5;
/** So long before the next command none is at work yet. */
const QUIET_AFTER_S = 3;
/**
 * How far the ratio falls in a dip at least (log). Where no command is near, less will do than where the rider has just shifted or shifts right
 * after it, least where the power sags with it.
 */
export const MIN_DIP = { unloaded: 0.03, quiet: 0.06, busy: 0.12 } as const;
/** Legs that seem to leap further for a record were counted twice by the sensor. */
const MAX_DIP = 0.5;
/** A dip of so many deviations is clear of the noise; a faint one counts only among others. Away from shifts less will do where the power sags with it. */
export const MIN_DEVIATIONS = { unloaded: 3, faint: 4, clear: 6 } as const;
/** Within this many deviations of a cog's development the chain drives there. */
export const ON_COG_DEVIATIONS = 3;
/** A slip lasts under 2 s; sensors smear it into the records beside it. */
const MAX_RECORDS = 3;
/** Records further apart do not show that it was so short. */
const SPARSE_S = 2;
/** Of so many records before a dip this many at least are steady driving on one cog. */
export const STEADY_RECORDS = 4;
const STEADY_AT_LEAST = 3;
/** After a slip the chain drives on its cog again within so many records. */
const BACK_WITHIN_RECORDS = 2;
/** Probability from which on a record is driving. */
const LEAST_DRIVING = 0.5;

/** A ride with what dips are looked for by. */
export interface DipSearch {
  readonly log: RideLog;
  readonly trace: RideTrace;
  readonly model: GearModel;
  /** How late the ratio follows the gear records, s; never below 0. */
  readonly lagS: number;
}

/** Records below the development of a gear. */
export interface DipRun {
  readonly start: number;
  /** End exclusive. */
  readonly end: number;
  readonly deepest: number;
  /** Place of the gear, cog with its ring, in the gear model. */
  readonly gear: number;
  /** Whether a command may still be at work. */
  readonly besideShift: boolean;
  /** Whether nothing drove the wheel for a moment. */
  readonly unloaded: boolean;
}

type Run = Omit<DipRun, 'besideShift' | 'unloaded'>;

/** How far a record lies below a gear's log development; NaN without a ratio. */
export const below = ({ trace, model }: DipSearch, gear: number, i: number): number =>
  model.logDevelopment[gear] - trace.logDevelopment[i];

/**
 * The dip that begins at a record, above the noise and no longer than a slip; null where none does. Away from commands it must
 * interrupt settled driving on one cog. Near them it must lie below every development that the chain had, was sent to and has
 * afterwards: on its way between cogs it passes through none that is lower.
 */
export function dipRun(search: DipSearch, start: number): DipRun | null {
  const { log, trace, lagS } = search;
  const atS = log.timeS[start];
  const { timeS } = trace.commands;
  const next = firstAfter(timeS, atS - Math.max(0, lagS - 1));
  const isAtWork = atS - (timeS[next - 1] ?? Number.NEGATIVE_INFINITY) < QUIET_BEFORE_S + lagS;
  const run = isAtWork ? runBesideShift(search, start) : settledRun(search, start);
  if (!run) return null;
  const busy = isAtWork || (timeS[next] ?? Number.POSITIVE_INFINITY) - atS < QUIET_AFTER_S;
  const depth = below(search, run.gear, run.deepest);
  const unloaded = !busy && losesPower(log, run);
  const leastDip = MIN_DIP[busy ? 'busy' : unloaded ? 'unloaded' : 'quiet'];
  const leastDeviations = MIN_DEVIATIONS[unloaded ? 'unloaded' : 'faint'];
  const stands = depth > leastDip && depth > leastDeviations * trace.deviation[run.deepest];
  return stands && depth <= MAX_DIP ? { ...run, besideShift: isAtWork, unloaded } : null;
}

function settledRun(search: DipSearch, start: number): Run | null {
  const { trace } = search;
  const gear = gearAt(search, start - 1);
  const isOnGear = (i: number): boolean => Math.abs(below(search, gear, i)) < ON_COG_DEVIATIONS * trace.deviation[i];
  if (gear < 0 || !isOnGear(start - 1)) return null;
  const steady = (i: number): boolean => trace.cog[i] === trace.cog[start - 1] && isOnGear(i);
  const run = runBelow(search, start, gear);
  return run && wasSteady(run, steady) && comesBack(search, run, isOnGear) ? run : null;
}

function runBesideShift(search: DipSearch, start: number): Run | null {
  const { trace } = search;
  const gear = lowestGearAbout(search, start);
  const run = gear < 0 ? null : runBelow(search, start, gear);
  const drives = (i: number): boolean =>
    below(search, gear, i) < ON_COG_DEVIATIONS * trace.deviation[i] && trace.driving[i] > LEAST_DRIVING;
  return run && wasSteady(run, drives) && comesBack(search, run, drives) ? run : null;
}

/** The run of records off a gear from one on; null where it is none, or too long for a slip. */
function runBelow(search: DipSearch, start: number, gear: number): Run | null {
  const { log, trace } = search;
  const isOff = (i: number): boolean => below(search, gear, i) > ON_COG_DEVIATIONS * trace.deviation[i];
  let end = start;
  let deepest = start;
  for (; end <= start + MAX_RECORDS && end < log.timeS.length && isOff(end); end++)
    if (below(search, gear, end) > below(search, gear, deepest)) deepest = end;
  const isSlip = end > start && end - start <= MAX_RECORDS && end < log.timeS.length && !isSparse(log, start, end);
  return isSlip ? { start, end, deepest, gear } : null;
}

/** Whether any of the records from one to another, both included, lies far from the one before it. */
function isSparse({ timeS }: RideLog, from: number, to: number): boolean {
  for (let i = from; i <= to; i++) if (timeS[i] - timeS[i - 1] > SPARSE_S) return true;
  return false;
}

/** The gear with the lowest development of those that were asked for and ridden about a record; -1 where one is not known. */
function lowestGearAbout(search: DipSearch, start: number): number {
  const { log, trace, model, lagS } = search;
  const { timeS, cog, ring } = trace.commands;
  let lowest = -1;
  const weigh = (gear: number): void => {
    if (lowest < 0 || model.logDevelopment[gear] < model.logDevelopment[lowest]) lowest = gear;
  };
  const atS = log.timeS[start];
  const first = firstAfter(timeS, atS - QUIET_BEFORE_S - lagS) - 1;
  for (let k = Math.max(0, first); k < timeS.length && timeS[k] <= atS; k++) {
    if (cog[k] < 0 || ring[k] < 0) return -1;
    weigh(ring[k] * model.cogs + cog[k]);
  }
  const until = Math.min(start + MAX_RECORDS, log.timeS.length);
  for (let i = start - STEADY_RECORDS; i < until; i++) if (gearAt(search, i) >= 0) weigh(gearAt(search, i));
  return lowest;
}

function gearAt({ trace, model }: DipSearch, i: number): number {
  return trace.cog[i] < 0 || trace.ring[i] < 0 ? -1 : trace.ring[i] * model.cogs + trace.cog[i];
}

function wasSteady({ start }: Run, isSteady: (i: number) => boolean): boolean {
  let steady = 0;
  for (let k = 1; k <= STEADY_RECORDS; k++) if (isSteady(start - k)) steady++;
  return steady >= STEADY_AT_LEAST;
}

function comesBack({ log }: DipSearch, { end }: Run, isBack: (i: number) => boolean): boolean {
  for (let k = end; k < end + BACK_WITHIN_RECORDS && k < log.timeS.length; k++) if (isBack(k)) return true;
  return false;
}
