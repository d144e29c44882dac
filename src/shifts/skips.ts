import { median } from 'd3-array';
import type { GearModel } from '../gear-trace/gear-model.ts';
import type { RideTrace } from '../gear-trace/gear-trace.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { crankTorque } from './crank-torque.ts';
import { firstAfter } from './first-after.ts';
import type { SkipEvent } from './ride-events.ts';

/** Commands this long before the dip, the sensors' lag apart, may explain it. */
const QUIET_BEFORE_S = 5;
/** Where no command is near, a smaller dip will do than where the rider shifts right after it. */
const QUIET_AFTER_S = 3;
const MIN_DIP = { quiet: 0.06, busy: 0.12 } as const;
const MIN_DEVIATIONS = 6;
/** Within this many deviations of the cog's development the chain drives there. */
const ON_COG_DEVIATIONS = 3;
/** A slip lasts under 2 s; sensors smear it into the records beside it. */
const MAX_RECORDS = 3;
const STEADY_RECORDS = 4;
const STEADY_AT_LEAST = 3;
const BACK_WITHIN_RECORDS = 2;
/** The wheel keeps its speed while the chain slips; a speed that sags and returns is the sensor's slip. */
const MAX_SAG = 0.03;
/** The legs run ahead by at least this part of the dip. */
const LEAST_LEGS = 0.5;
/** Torque beyond easy riding, Nm (assumption of ours). */
const HARD_NM = 30;
/** Without gear records and without a hard push: so short and so deep a dip is no shift there and back, and no reading gone wrong. */
const CLEAR = { records: 2, dip: 0.15, deviations: 9 } as const;
/** A dip no deeper than the step to the next larger cog, by this many deviations, may be a hop there and back. */
const HOP_DEVIATIONS = 2.5;
/** A dip as deep as this is a skip by 63 % (assumption of ours). */
const CONFIDENT_DEVIATIONS = 6;

/** A run of records whose ratio lies below the development of the cog that the chain drove on just before. */
interface Dip {
  readonly start: number;
  readonly deepest: number;
  /** End exclusive. */
  readonly end: number;
  readonly cog: number;
  /** How far a record lies below the cog's log development. */
  below(i: number): number;
}

/**
 * Finds skips: in settled driving, with no command to explain it, the cranks run ahead of the wheel for under 2 s (the ratio dips
 * below the cog's development, which freewheeling never does), and the same cog drives on. Riders often answer by shifting. A dip that
 * a hop to the next larger cog could have made counts only under more than the ride's usual load.
 */
export function skips(log: RideLog, trace: RideTrace, sensorLagS: number): SkipEvent[] {
  const { model } = trace;
  if (!model) return [];
  const search: SkipSearch = {
    log,
    trace,
    model,
    lagS: Math.max(0, sensorLagS),
    usualNm: median(usualTorques(log)) ?? Number.NaN,
  };
  const found: SkipEvent[] = [];
  for (let start = STEADY_RECORDS; start + 1 < log.timeS.length; start++) {
    const dip = dipAt(log, trace, model, start);
    const event = dip && weigh(search, dip);
    if (!event) continue;
    found.push(event);
    start = dip.end;
  }
  return found;
}

/** A ride with what skips are looked for by. */
interface SkipSearch {
  readonly log: RideLog;
  readonly trace: RideTrace;
  readonly model: GearModel;
  /** How late the ratio follows the gear records, s; never below 0. */
  readonly lagS: number;
  /** The ride's usual torque, Nm; NaN without power. */
  readonly usualNm: number;
}

/** The dip that begins at a record; null where none does. */
function dipAt(log: RideLog, trace: RideTrace, model: GearModel, start: number): Dip | null {
  const cog = trace.cog[start - 1];
  const ring = trace.ring[start - 1];
  if (cog < 0 || ring < 0) return null;
  const level = model.logDevelopment[ring * model.cogs + cog];
  const below = (i: number): number => level - trace.logDevelopment[i];
  const isOff = (i: number): boolean => below(i) > ON_COG_DEVIATIONS * trace.deviation[i];
  if (!isOff(start) || !isOnCog(trace, below, start - 1)) return null;
  let end = start;
  let deepest = start;
  while (end <= start + MAX_RECORDS && end < log.timeS.length && isOff(end)) {
    if (below(end) > below(deepest)) deepest = end;
    end++;
  }
  return { start, deepest, end, cog, below };
}

const isOnCog = (trace: RideTrace, below: Dip['below'], i: number): boolean =>
  Math.abs(below(i)) < ON_COG_DEVIATIONS * trace.deviation[i];

/** The skip that made a dip; null where something else may have. */
function weigh({ log, trace, model, lagS, usualNm }: SkipSearch, dip: Dip): SkipEvent | null {
  const { start, deepest, end, cog } = dip;
  const { commands, deviation } = trace;
  const atS = log.timeS[start];
  const last = firstAfter(commands.timeS, atS - Math.max(0, lagS - 1)) - 1;
  if (atS - (commands.timeS[last] ?? Number.NEGATIVE_INFINITY) < QUIET_BEFORE_S + lagS) return null;
  const quiet = (commands.timeS[last + 1] ?? Number.POSITIVE_INFINITY) - atS >= QUIET_AFTER_S;
  const depth = dip.below(deepest);
  const z = depth / deviation[deepest];
  if (!(depth > (quiet ? MIN_DIP.quiet : MIN_DIP.busy)) || !(z > MIN_DEVIATIONS)) return null;
  if (end - start > MAX_RECORDS || end >= log.timeS.length) return null;
  if (!drivesOn(log, trace, dip)) return null;
  if (end - start > 1 && restsOnCog(trace, model, start, end)) return null;
  if (!legsRunAhead(log, dip, depth)) return null;
  const torqueNm = crankTorque(log, start - 2, end + 1);
  // without gear records a quick shift there and back looks much the same
  const clear = end - start <= CLEAR.records && depth > CLEAR.dip && z > CLEAR.deviations;
  if (commands.timeS.length === 0 && !(torqueNm > HARD_NM) && !clear) return null;
  const hop = stepToLarger(trace, model, start, cog) + HOP_DEVIATIONS * deviation[deepest];
  if (depth < hop && !(torqueNm > usualNm)) return null;
  return { timeS: Math.max(0, atS - lagS), cog, confidence: 1 - Math.exp(-z / CONFIDENT_DEVIATIONS), torqueNm };
}

/** Whether the chain drove on the cog steadily before a dip, and does again soon after it. */
function drivesOn(log: RideLog, trace: RideTrace, { start, end, cog, below }: Dip): boolean {
  let steady = 0;
  for (let k = 1; k <= STEADY_RECORDS; k++)
    if (trace.cog[start - k] === cog && isOnCog(trace, below, start - k)) steady++;
  let back = false;
  for (let k = end; k < end + BACK_WITHIN_RECORDS && k < log.timeS.length; k++) back ||= isOnCog(trace, below, k);
  return steady >= STEADY_AT_LEAST && back;
}

/** Whether the legs made a dip, and not a wheel that seemed to slow down for a moment. */
function legsRunAhead(log: RideLog, { start, deepest, end }: Dip, depth: number): boolean {
  const around = (log.speedMps[start - 1] + log.speedMps[end]) / 2;
  const legs = Math.log(log.cadenceRpm[deepest] / Math.max(log.cadenceRpm[start - 1], log.cadenceRpm[end]));
  return !(Math.log(log.speedMps[deepest] / around) < -MAX_SAG || legs < LEAST_LEGS * depth);
}

/** Log step of the ratio from a cog to the next larger one at the record before `start`; -Infinity from the largest. */
function stepToLarger(trace: RideTrace, { logDevelopment, cogs }: GearModel, start: number, cog: number): number {
  if (cog + 1 >= cogs) return Number.NEGATIVE_INFINITY;
  const gear = trace.ring[start - 1] * cogs + cog;
  return logDevelopment[gear] - logDevelopment[gear + 1];
}

/** Whether all records of a run but one drive on one cog: then the chain went there and came back. */
function restsOnCog(trace: RideTrace, { logDevelopment }: GearModel, start: number, end: number): boolean {
  return logDevelopment.some((level) => {
    let on = 0;
    for (let i = start; i < end; i++)
      if (Math.abs(trace.logDevelopment[i] - level) < ON_COG_DEVIATIONS * trace.deviation[i]) on++;
    return on >= Math.max(1, end - start - 1);
  });
}

/** Torque of every record under way, Nm. */
function usualTorques(log: RideLog): Float64Array {
  return Float64Array.from(log.timeS, (_, i) => crankTorque(log, i, i + 1)).filter((torqueNm) => torqueNm > 0);
}
