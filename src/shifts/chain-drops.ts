import { mean, median } from 'd3-array';
import type { RideTrace } from '../gear-trace/gear-trace.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { dropSide } from './drop-side.ts';
import { lowestLevels } from './lowest-levels.ts';
import type { ChainDropEvent } from './ride-events.ts';

/** The legs must run this much faster than before: a cadence that a sensor merely holds while the bike brakes does not. */
const MIN_SPIN = 0.05;
const MIN_BELOW = 0.07;
const BEFORE_S = 6;
/** How much the speed may rise from the run's first record on: noise raises it a little. */
const MAX_GAIN = 1.01;
/** The same where a power meter shows that the rider does nothing, and a slope speeds the bike up. */
const MAX_GAIN_DOWNHILL = 1.15;
/** Slowest first-order lag of a satellite speed, and how long the rise that it holds back is waited for. */
const SLOWEST_LAG_S = 3;
/** A driven bike shows at least this part of the rise that the slowest lag would leave of what the legs promise. */
const LEAST_RISE = 0.3;
const STOP_WITHIN_S = 60;
const STOP_LASTS_S = 8;
const APART_S = 20;
const MIN_CONFIDENCE = 0.5;

/** Weights of the signs, in log odds (assumptions of ours; the sum decides, no single one can). */
const ODDS = { before: -9, record: 1, powerGone: 5, powerThere: -20, stop: 2, noStop: -2, endOrRing: 2 } as const;

/**
 * Finds where drive was lost. With the chain off, the cranks turn against nothing: cadence jumps up, the ratio falls below every
 * gear that was lately commanded (which neither freewheeling nor a missed shift can do), power is gone, and the rider
 * stops to put the chain back. Each sign adds its weight; power, where it is measured and still there, rules a drop out.
 */
export function chainDrops(log: RideLog, trace: RideTrace): ChainDropEvent[] {
  if (!trace.model) return [];
  const lowest = lowestLevels(log, trace);
  /**
   * How far the ratio lies below every gear in question: the larger of the ratio with and without its lag undone is taken, unless a
   * power meter shows that the rider does nothing.
   */
  const below = (i: number): number => {
    if (!trace.samples.usable[i] || Number.isNaN(trace.logDevelopment[i])) return Number.NaN;
    const raw = Math.log((log.speedMps[i] * 60) / log.cadenceRpm[i]);
    const idle = log.powerW[i] < 30;
    return lowest[i] - (idle ? trace.logDevelopment[i] : Math.max(trace.logDevelopment[i], raw));
  };
  const threshold = (i: number): number => MIN_BELOW + (log.powerW[i] < 30 ? 2.5 : 3) * (trace.deviation[i] || 0);

  const found: ChainDropEvent[] = [];
  for (let start = 1; start < log.timeS.length; start++) {
    if (!(below(start) > threshold(start))) continue;
    let end = start;
    while (end < log.timeS.length && below(end) > threshold(end)) end++;
    const confidence = weigh(start, end);
    const timeS = log.timeS[start];
    const last = found.at(-1);
    if (confidence >= MIN_CONFIDENCE && !(last && timeS - last.timeS < APART_S))
      found.push({ timeS, ...dropSide(log, trace, timeS), confidence });
    start = end;
  }
  return found;

  /** Highest speed within the sensors' lag after the run, over that of the run's first record. */
  function speedGain(start: number, end: number): number {
    let highest = 0;
    for (let i = start; i < log.timeS.length && (i < end || log.timeS[i] - log.timeS[end - 1] <= SLOWEST_LAG_S); i++)
      highest = Math.max(highest, log.speedMps[i] || 0);
    return highest / log.speedMps[start];
  }

  function weigh(start: number, end: number): number {
    const before = recordsBefore(log, start);
    const cadenceBefore = median(before, (i) => log.cadenceRpm[i]) ?? Number.NaN;
    const powerBefore = median(before, (i) => log.powerW[i]) ?? Number.NaN;
    let spin = 0;
    let depth = 0;
    let promise = 0;
    for (let i = start; i < end; i++) {
      promise += below(i) * Math.min(2, trace.samples.dtS[i]);
      spin = Math.max(spin, Math.log(log.cadenceRpm[i] / cadenceBefore));
      depth = Math.max(depth, below(i));
    }
    // a ratio that lay too low before, with the chain driving, is the sensors' error: only what goes beyond it counts
    const bias = Math.max(0, median(before, below) ?? 0);
    depth -= bias;
    if (bias > 0 && depth < threshold(start)) return 0;
    // setting off with the chain off there is no cadence to compare with: the gear itself says how fast the legs should turn
    if (before.length === 0) spin = depth;
    // the first record's second may have begun with the chain still on
    const power = mean(log.powerW.subarray(start + 1, end + 1)) ?? Number.NaN;
    const powerGone = log.powerW[end - 1] < 30 && power < Math.max(20, 0.4 * (powerBefore || 0));
    if (!(spin > MIN_SPIN) || speedGain(start, end) > (powerGone ? MAX_GAIN_DOWNHILL : gainWithoutDrive(promise)))
      return 0;
    if (driveFollows(log, start, end, powerGone) || (!powerGone && restsOnGear(trace, start, end))) return 0;
    const { side } = dropSide(log, trace, log.timeS[start]);
    const odds =
      ODDS.before +
      Math.min(4, 25 * spin) +
      Math.min(4, ODDS.record * (end - start)) +
      Math.min(3, 10 * depth) +
      (Number.isNaN(power) ? 0 : powerGone ? ODDS.powerGone : ODDS.powerThere) +
      (stopsAfter(log, end) ? ODDS.stop : ODDS.noStop) +
      (side === 'past-largest' || side === 'past-smallest' ? ODDS.endOrRing : 0);
    return 1 / (1 + Math.exp(-odds));
  }
}

/**
 * Largest gain of speed that speaks for a lost drive. Legs that run ahead of the lowest gear by `promise` (log share x seconds)
 * would have sped up a driven bike, and even the slowest sensor would show some of it: d ln(speed) = share x dt / lag.
 */
function gainWithoutDrive(promise: number): number {
  return Math.max(MAX_GAIN, Math.exp((LEAST_RISE * promise) / SLOWEST_LAG_S));
}

/** Seconds after the run in which a bike without drive can gain neither speed nor power. */
const AFTERWARDS_S = 5;

/** A run this long with the power gone is no slip of one reading, even if the rider soon has the chain back on. */
const SURE_RECORDS = 2;

/** Whether the bike is driven again right after a short run: it gains speed (unless a power meter shows why not), or power is back. */
function driveFollows(log: RideLog, start: number, end: number, powerGone: boolean): boolean {
  if (powerGone && end - start >= SURE_RECORDS) return false;
  for (let i = end; i < log.timeS.length && log.timeS[i] - log.timeS[end - 1] <= AFTERWARDS_S; i++) {
    if (log.powerW[i] > 60) return true;
    if (!powerGone && log.speedMps[i] > log.speedMps[start] * 1.02) return true;
  }
  return false;
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
    if (log.cadenceRpm[i] > 30) records.push(i);
  return records;
}

/** Whether the bike comes to a halt soon and stays there: a recording pause counts as a halt, and so does the ride's end. */
function stopsAfter(log: RideLog, from: number): boolean {
  for (let i = from; i <= log.timeS.length; i++) {
    if (i === log.timeS.length) return true;
    if (log.timeS[i] - log.timeS[from] >= STOP_WITHIN_S) return false;
    if (i > 0 && log.timeS[i] - log.timeS[i - 1] > STOP_LASTS_S) return true;
    if (!(log.speedMps[i] < 1)) continue;
    let k = i;
    while (k < log.timeS.length && !(log.speedMps[k] >= 1)) k++;
    if (k >= log.timeS.length || log.timeS[k] - log.timeS[i] >= STOP_LASTS_S) return true;
    i = k;
  }
  return false;
}
