import { mean, median } from 'd3-array';
import type { RideTrace } from '../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../gear-trace/pedalling-rpm.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { dropSide } from './drop-side.ts';
import { freeSpins } from './free-spins.ts';
import { haltAfter } from './halt-after.ts';
import { lowestLevels } from './lowest-levels.ts';
import type { ChainDropEvent } from './ride-events.ts';
import { gainWithoutDrive, SLOWEST_LAG_S, speedGain } from './speed-gain.ts';

/** The legs must run this much faster than before: a cadence that a sensor merely holds while the bike brakes does not. */
const MIN_SPIN = 0.05;
/** The same against the one record before, which may already be half and half. */
const MIN_HELD_SPIN = 0.03;
const MIN_BELOW = 0.07;
/** Below this a rider does nothing, W. */
const IDLE_W = 30;
/** How many deviations more than `MIN_BELOW` a record must lie below the gears, where the rider does nothing by the power meter, and else. */
const BELOW_DEVIATIONS = { idle: 2.5, other: 3 } as const;
const BEFORE_S = 6;
/** Where a power meter shows that the rider does nothing, only a slope can speed the bike up. */
const MAX_GAIN_DOWNHILL = 1.15;
const WORKING_W = 60;
const ASTRAY_S = 8;
const STOP_WITHIN_S = 60;
const STOP_LASTS_S = 8;
const APART_S = 20;
const MIN_CONFIDENCE = 0.5;

/** Weights of the signs, in log odds (assumptions of ours; the sum decides, no single one can). */
const ODDS = {
  before: -9,
  record: 1,
  powerGone: 5,
  powerThere: -20,
  stop: 2,
  noStop: -2,
  endOrRing: 2,
  creeping: -5,
} as const;

/** How far each record lies below every gear in question, and from where on that counts; log development. */
interface Depths {
  below(i: number): number;
  threshold(i: number): number;
  /** How far the record lies below the gears even at the fastest speed of some seconds about it: no lag of a sensor explains that. */
  sureDepth(i: number): number;
}

/** So long a cadence may be shown after the speed it belongs to, a sensor's holding on included. */
const LATEST_CADENCE_S = 5;

/** Fastest speed within the sensors' lags of a record. */
function fastestAbout({ timeS, speedMps }: RideLog, i: number): number {
  let fastest = speedMps[i] || 0;
  for (let k = i - 1; k >= 0 && timeS[i] - timeS[k] <= LATEST_CADENCE_S; k--)
    fastest = Math.max(fastest, speedMps[k] || 0);
  for (let k = i + 1; k < timeS.length && timeS[k] - timeS[i] <= SLOWEST_LAG_S; k++)
    fastest = Math.max(fastest, speedMps[k] || 0);
  return fastest;
}

/**
 * Finds where drive was lost. With the chain off, the cranks turn against nothing: cadence jumps up, the ratio falls below every
 * gear that was lately commanded (which neither freewheeling nor a missed shift can do), power is gone, and the rider
 * stops to put the chain back. Each sign adds its weight; power, where it is measured and still there, rules a drop out.
 */
export function chainDrops(log: RideLog, trace: RideTrace): ChainDropEvent[] {
  if (!trace.model) return [];
  const depths = depthsBelow(log, trace);
  const found: ChainDropEvent[] = [];
  const add = (timeS: number, confidence: number): void => {
    if (!found.some((other) => Math.abs(timeS - other.timeS) < APART_S))
      found.push({ timeS, ...dropSide(log, trace, timeS), confidence });
  };
  const isBelow = (i: number): boolean => depths.below(i) > depths.threshold(i);
  for (let start = 1; start < log.timeS.length; start++) {
    if (!isBelow(start)) continue;
    let end = start;
    while (end < log.timeS.length && isBelow(end)) end++;
    const confidence = weigh(log, trace, depths, start, end);
    if (confidence >= MIN_CONFIDENCE) add(log.timeS[start], confidence);
    start = end;
  }
  for (const { start, logOdds } of freeSpins(log, trace)) add(log.timeS[start], 1 / (1 + Math.exp(-logOdds)));
  return found.sort((a, b) => a.timeS - b.timeS);
}

function depthsBelow(log: RideLog, trace: RideTrace): Depths {
  const lowest = lowestLevels(log, trace);
  const isIdle = (i: number): boolean => log.powerW[i] < IDLE_W;
  const stalling = (i: number): boolean =>
    log.speedMps[i] <= STALLED_MPS && trace.samples.pedalling[i] === 1 && usableBefore(i);
  const usableBefore = (i: number): boolean => {
    for (let k = i - 1; k >= 0 && log.timeS[i] - log.timeS[k] <= LATEST_CADENCE_S; k--)
      if (trace.samples.usable[k]) return true;
    return false;
  };
  const sureDepth = (i: number): number => {
    const fastest = fastestAbout(log, i);
    return fastest > STALLED_MPS ? lowest[i] - Math.log((fastest * 60) / log.cadenceRpm[i]) : Number.NaN;
  };
  return {
    sureDepth,
    /**
     * The larger of the ratio with and without its lag undone is taken, unless a power meter shows that the rider does nothing. NaN
     * where there is no ratio.
     */
    below(i) {
      if (!trace.samples.usable[i] || Number.isNaN(trace.logDevelopment[i]))
        return stalling(i) ? sureDepth(i) : Number.NaN;
      const raw = Math.log((log.speedMps[i] * 60) / log.cadenceRpm[i]);
      return lowest[i] - (isIdle(i) ? trace.logDevelopment[i] : Math.max(trace.logDevelopment[i], raw));
    },
    threshold: (i) =>
      MIN_BELOW + (isIdle(i) ? BELOW_DEVIATIONS.idle : BELOW_DEVIATIONS.other) * (trace.deviation[i] || 0),
  };
}

/** Whether the legs did work on such a ratio shortly before or within the run: then the speed is astray. The run's first second may be half and half. */
function poweredBelow(log: RideLog, { below, threshold }: Depths, start: number, end: number): boolean {
  for (let i = end - 1; i >= 0 && log.timeS[start] - log.timeS[i] <= ASTRAY_S; i--)
    if (i !== start && log.powerW[i] > WORKING_W && below(i) > threshold(i)) return true;
  return false;
}

/** What the records of a run show beside their depth. */
interface RunSigns {
  /** Log of how much faster the legs ran than before. */
  readonly spin: number;
  /** How far below the gears the run went, what was so before taken off. */
  readonly depth: number;
  /** Sum of the depths times their seconds: the work that legs with the chain on would have done. */
  readonly promise: number;
  /** Mean power from the second of the fastest legs on, W; NaN without a power meter. */
  readonly powerW: number;
  readonly powerGone: boolean;
  /** Whether the legs ran ahead of the fastest speed of the seconds about, on a ratio that was right before. */
  readonly sure: boolean;
}

/** Reads the signs of a run; null where it is no deeper than the sensors were astray before. */
function runSigns(
  log: RideLog,
  trace: RideTrace,
  { below, threshold, sureDepth }: Depths,
  start: number,
  end: number,
): RunSigns | null {
  const before = recordsBefore(log, start);
  const cadenceBefore = median(before, (i) => log.cadenceRpm[i]) ?? Number.NaN;
  const powerBefore = median(before, (i) => log.powerW[i]) ?? Number.NaN;
  let fastest = start;
  let deepest = 0;
  let promise = 0;
  let surest = 0;
  for (let i = start; i < end; i++) {
    surest = Math.max(surest, sureDepth(i) || 0);
    promise += below(i) * Math.min(2, trace.samples.dtS[i]);
    if (log.cadenceRpm[i] > log.cadenceRpm[fastest]) fastest = i;
    deepest = Math.max(deepest, below(i));
  }
  // a ratio that lay too low before, with the chain driving, is the sensors' error: only what goes beyond it counts
  const belowBefore = median(before, below);
  const bias = Math.max(0, belowBefore ?? 0);
  const depth = deepest - bias;
  if (bias > 0 && depth < threshold(start)) return null;
  // setting off with the chain off there is no cadence to compare with: the gear itself says how fast the legs should turn
  const spin = before.length === 0 ? depth : Math.log(log.cadenceRpm[fastest] / cadenceBefore);
  // the seconds in which the chain came off, or on again, hold some power: what counts is the second of the fastest legs and what follows
  const powerW = mean(log.powerW.subarray(fastest, end)) ?? Number.NaN;
  const powerGone = log.powerW[end - 1] < IDLE_W && powerW < Math.max(20, 0.4 * (powerBefore || 0));
  return {
    spin,
    depth,
    promise,
    powerW,
    powerGone,
    sure: surest > SURE_DEPTH && (belowBefore ?? Number.NaN) < threshold(start),
  };
}

/** Probability that drive was lost in a run of records below every gear in question; 0 where something rules it out. */
function weigh(log: RideLog, trace: RideTrace, depths: Depths, start: number, end: number): number {
  const signs = runSigns(log, trace, depths, start, end);
  if (!signs || poweredBelow(log, depths, start, end)) return 0;
  const { spin, depth, powerGone } = signs;
  const mostGain = powerGone ? MAX_GAIN_DOWNHILL : gainWithoutDrive(signs.promise);
  if (!(spin > MIN_SPIN) || isHeld(log, start, end) || speedGain(log, start, end) > mostGain) return 0;
  if (driveFollows(log, start, end, powerGone) || (!powerGone && restsOnGear(trace, start, end))) return 0;
  const recorded = trace.commands.timeS.length > 0;
  if (backOnGear(trace, start, end) || (!recorded && end - start < LEAST_UNRECORDED)) return 0;
  const { side } = dropSide(log, trace, log.timeS[start]);
  const halt = haltAfter(log, Math.min(end, log.timeS.length - 1), STOP_WITHIN_S, STOP_LASTS_S);
  const odds =
    ODDS.before +
    Math.min(4, 25 * spin) +
    Math.min(4, ODDS.record * (end - start)) +
    Math.min(3, 10 * depth) +
    (Number.isNaN(signs.powerW) ? 0 : powerGone ? ODDS.powerGone : ODDS.powerThere) +
    (halt.lastsS > 0 ? ODDS.stop : ODDS.noStop) +
    (creeping(log, start, end) && !signs.sure ? ODDS.creeping : 0) +
    (recorded && (side === 'past-largest' || side === 'past-smallest') ? ODDS.endOrRing : 0);
  return 1 / (1 + Math.exp(-odds));
}

/** Whether the legs ran no faster than in the record just before: a sensor that holds its last reading while the bike brakes. */
function isHeld({ cadenceRpm }: RideLog, start: number, end: number): boolean {
  let fastest = 0;
  for (let i = start; i < end; i++) fastest = Math.max(fastest, cadenceRpm[i]);
  return cadenceRpm[start - 1] > PEDALLING_RPM && Math.log(fastest / cadenceRpm[start - 1]) < MIN_HELD_SPIN;
}

/** Seconds after the run in which a bike without drive can gain neither speed nor power. */
const AFTERWARDS_S = 5;

/** A run this long with the power gone is no slip of one reading, even if the rider soon has the chain back on. */
const SURE_RECORDS = 2;

/** Whether the bike is driven again right after a short run: it gains speed (unless a power meter shows why not), or power is back. */
function driveFollows(log: RideLog, start: number, end: number, powerGone: boolean): boolean {
  if (powerGone && end - start >= SURE_RECORDS) return false;
  for (let i = end; i < log.timeS.length && log.timeS[i] - log.timeS[end - 1] <= AFTERWARDS_S; i++) {
    if (log.powerW[i] > WORKING_W) return true;
    if (!powerGone && log.speedMps[i] > log.speedMps[start] * 1.02) return true;
  }
  return false;
}

/** Legs that run ahead of the gear by this, log share, at the fastest speed about are no error of creeping. */
const SURE_DEPTH = 0.2;
/** Down to this speed a bike that stalls gives a ratio. */
const STALLED_MPS = 1;
const CREEPING_MPS = 2;
const STANDSTILL_MPS = 1.2;

/** A single reading at walking pace, or one just after setting off: there the sensors' own error and lag look like legs that spin in vain. */
function creeping(log: RideLog, start: number, end: number): boolean {
  if (end - start === 1 && log.speedMps[start] < CREEPING_MPS) return true;
  for (let i = start - 1; i >= 0 && log.timeS[start] - log.timeS[i] <= SLOWEST_LAG_S; i--)
    if (log.speedMps[i] < STANDSTILL_MPS) return true;
  return false;
}

/** Without gear records nothing says which gear was asked for: a single reading is too little. */
const LEAST_UNRECORDED = 2;
/** A spike this short is followed at once by this many records on one gear where the chain merely slipped. */
const SPIKE_RECORDS = 2;
const BACK_RECORDS = 2;

/** Whether a short run ends with the chain driving on the gear it drove before: then it slipped over teeth, or a reading went wrong. */
function backOnGear({ model, logDevelopment, deviation, ring, cog }: RideTrace, start: number, end: number): boolean {
  if (!model || end - start > SPIKE_RECORDS || ring[start - 1] < 0 || cog[start - 1] < 0) return false;
  const level = model.logDevelopment[ring[start - 1] * model.cogs + cog[start - 1]];
  for (let i = end; i < end + BACK_RECORDS; i++)
    if (!(Math.abs(logDevelopment[i] - level) < 2.5 * deviation[i])) return false;
  return true;
}

const RESTING_RECORDS = 4;

/** Whether the run rests on one gear's development: then the chain drives there, and it was an unasked shift. */
function restsOnGear(trace: RideTrace, start: number, end: number): boolean {
  const model = trace.model;
  if (!model || end - start < RESTING_RECORDS) return false;
  return model.logDevelopment.some((level) => {
    let on = 0;
    for (let i = start; i < end; i++) if (Math.abs(trace.logDevelopment[i] - level) < 2.5 * trace.deviation[i]) on++;
    return on >= 0.8 * (end - start);
  });
}

/** Pedalling records in the seconds before. */
function recordsBefore(log: RideLog, start: number): number[] {
  const records: number[] = [];
  for (let i = start - 1; i >= 0 && log.timeS[start] - log.timeS[i] <= BEFORE_S; i--)
    if (log.cadenceRpm[i] > PEDALLING_RPM) records.push(i);
  return records;
}
