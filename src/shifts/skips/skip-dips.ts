import type { GearModel } from '../../gear-trace/gear-model.ts';
import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { crankTorque } from '../crank-torque.ts';
import { firstAfter } from '../first-after.ts';

/** Commands this long before the dip, the sensors' lag apart, may explain it. */
const QUIET_BEFORE_S = 5;
/** Where no command is near, a smaller dip will do than where the rider shifts right after it. */
const QUIET_AFTER_S = 3;
const MIN_DIP = { quiet: 0.06, busy: 0.12 } as const;
/** Legs that seem to leap further for a record were counted twice by the sensor. */
const MAX_DIP = 0.5;
const MIN_DEVIATIONS = 6;
/** Within this many deviations of a cog's development the chain drives there. */
export const ON_COG_DEVIATIONS = 3;
/** A slip lasts under 2 s; sensors smear it into the records beside it. */
const MAX_RECORDS = 3;
const STEADY_RECORDS = 4;
const STEADY_AT_LEAST = 3;
const BACK_WITHIN_RECORDS = 2;
/** The wheel keeps its speed while the chain slips; a speed that sags and returns is the sensor's slip. */
const MAX_SAG = 0.03;
/** The legs run ahead by at least this part of the dip. */
const LEAST_LEGS = 0.5;

/** A run of records in which the legs run ahead of the wheel, in settled driving on a cog and with no command to explain it. */
export interface SkipDip {
  readonly start: number;
  /** End exclusive. */
  readonly end: number;
  readonly deepest: number;
  readonly cog: number;
  /** How far the deepest record lies below the cog's log development. */
  readonly depth: number;
  /** Standard deviation of that record. */
  readonly deviation: number;
  /** Log step to the next larger cog; null from the largest. */
  readonly toLarger: number | null;
  /** Mean torque about the dip, Nm; NaN without power. */
  readonly torqueNm: number;
}

/** A ride with what dips are looked for by. */
interface DipSearch {
  readonly log: RideLog;
  readonly trace: RideTrace;
  readonly model: GearModel;
  /** How late the ratio follows the gear records, s; never below 0. */
  readonly lagS: number;
}

/**
 * Finds where the ratio dips below the development of the cog that the chain drives on, which freewheeling never makes it do, for under
 * 2 s, while the wheel keeps its speed, and the same cog drives on.
 */
export function skipDips(log: RideLog, trace: RideTrace, lagS: number): SkipDip[] {
  const { model } = trace;
  if (!model) return [];
  const search = { log, trace, model, lagS };
  const found: SkipDip[] = [];
  for (let start = STEADY_RECORDS; start + 1 < log.timeS.length; start++) {
    const run = runAt(search, start);
    if (!run || isCommanded(search, run) || !drivesOn(search, run) || !legsRunAhead(search, run)) continue;
    found.push(measured(search, run));
    start = run.end;
  }
  return found;
}

/** Records below a cog's development, `end` exclusive. */
interface Run {
  readonly start: number;
  readonly end: number;
  readonly deepest: number;
  readonly cog: number;
  /** Place of that cog, with its ring, in the gear model. */
  readonly gear: number;
}

/** How far a record lies below a gear's log development. */
const below = ({ trace, model }: DipSearch, gear: number, i: number): number =>
  model.logDevelopment[gear] - trace.logDevelopment[i];

const isOnGear = (search: DipSearch, gear: number, i: number): boolean =>
  Math.abs(below(search, gear, i)) < ON_COG_DEVIATIONS * search.trace.deviation[i];

/** The run that begins at a record; null where none does, or one too long. */
function runAt(search: DipSearch, start: number): Run | null {
  const { log, trace, model } = search;
  const cog = trace.cog[start - 1];
  const ring = trace.ring[start - 1];
  if (cog < 0 || ring < 0) return null;
  const gear = ring * model.cogs + cog;
  const isOff = (i: number): boolean => below(search, gear, i) > ON_COG_DEVIATIONS * trace.deviation[i];
  if (!isOff(start) || !isOnGear(search, gear, start - 1)) return null;
  let end = start;
  let deepest = start;
  for (; end <= start + MAX_RECORDS && end < log.timeS.length && isOff(end); end++)
    if (below(search, gear, end) > below(search, gear, deepest)) deepest = end;
  return end - start > MAX_RECORDS || end >= log.timeS.length ? null : { start, end, deepest, cog, gear };
}

/** Whether a command explains a run, or it is too shallow for how near the next command is. */
function isCommanded(search: DipSearch, { start, deepest, gear }: Run): boolean {
  const { log, trace, lagS } = search;
  const atS = log.timeS[start];
  const { timeS } = trace.commands;
  const last = firstAfter(timeS, atS - Math.max(0, lagS - 1)) - 1;
  if (atS - (timeS[last] ?? Number.NEGATIVE_INFINITY) < QUIET_BEFORE_S + lagS) return true;
  const quiet = (timeS[last + 1] ?? Number.POSITIVE_INFINITY) - atS >= QUIET_AFTER_S;
  const depth = below(search, gear, deepest);
  return (
    !(depth > (quiet ? MIN_DIP.quiet : MIN_DIP.busy)) ||
    !(depth > MIN_DEVIATIONS * trace.deviation[deepest]) ||
    depth > MAX_DIP
  );
}

/** Whether the chain drove on the cog steadily before a run, and does again soon after it. */
function drivesOn(search: DipSearch, { start, end, cog, gear }: Run): boolean {
  const { log, trace } = search;
  let steady = 0;
  for (let k = 1; k <= STEADY_RECORDS; k++)
    if (trace.cog[start - k] === cog && isOnGear(search, gear, start - k)) steady++;
  let back = false;
  for (let k = end; k < end + BACK_WITHIN_RECORDS && k < log.timeS.length; k++) back ||= isOnGear(search, gear, k);
  return steady >= STEADY_AT_LEAST && back;
}

/** Whether the legs made a dip, and not a wheel that seemed to slow down for a moment. */
function legsRunAhead(search: DipSearch, { start, deepest, end, gear }: Run): boolean {
  const { speedMps, cadenceRpm } = search.log;
  const sag = Math.log((2 * speedMps[deepest]) / (speedMps[start - 1] + speedMps[end]));
  const legs = Math.log(cadenceRpm[deepest] / Math.max(cadenceRpm[start - 1], cadenceRpm[end]));
  return sag >= -MAX_SAG && legs >= LEAST_LEGS * below(search, gear, deepest);
}

function measured(search: DipSearch, { start, end, deepest, cog, gear }: Run): SkipDip {
  const { log, trace, model } = search;
  const toLarger = cog + 1 < model.cogs ? model.logDevelopment[gear] - model.logDevelopment[gear + 1] : null;
  return {
    start,
    end,
    deepest,
    cog,
    depth: below(search, gear, deepest),
    deviation: trace.deviation[deepest],
    toLarger,
    torqueNm: crankTorque(log, start - 2, end + 1),
  };
}
