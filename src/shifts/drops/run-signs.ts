import { mean, median } from 'd3-array';
import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { firstWithin } from '../records-about.ts';
import type { BelowGears } from './below-gears.ts';
import { IDLE_W } from './rider-power.ts';

/** A ride in which lost drive is looked for. */
export interface DropSearch {
  readonly log: RideLog;
  readonly trace: RideTrace;
  readonly below: BelowGears;
}

/** Records below every gear in question, one after another; `end` exclusive. */
export interface LowRun {
  readonly start: number;
  readonly end: number;
}

/** What the records of a run show. */
export interface RunSigns {
  /** Log of how much faster the legs ran than before. */
  readonly spin: number;
  /** How far below the gears the run went, what was so before taken off. */
  readonly depth: number;
  /** Sum of the depths times their seconds: the work that legs with the chain on would have done. */
  readonly promise: number;
  /** How long the run lasted, s. */
  readonly lastedS: number;
  /** Whether nobody pedalled in the seconds before: `spin` is then taken against the gear. */
  readonly settingOff: boolean;
  /** Mean power from the second of the fastest legs on, W; NaN without a power meter. */
  readonly powerW: number;
  readonly powerGone: boolean;
  /** Whether power is still there. Neither where the legs hardly pressed before: whether they press now nobody can tell. */
  readonly powerThere: boolean;
  /** Whether the legs ran ahead of the fastest speed of the seconds about, on a ratio that was right before. */
  readonly sure: boolean;
}

/** What the legs did before is taken from so many seconds. */
const BEFORE_S = 6;
/** Power that free legs may show, W, and of what they pressed with before (assumptions of ours). */
const LITTLE_W = 20;
const LITTLE_OF_BEFORE = 0.4;
/** Legs that run ahead of the gear by this, log share, at the fastest speed about are no error of creeping. */
const SURE_DEPTH = 0.2;

/** Reads the signs of a run; null where it is no deeper than the sensors were astray before. */
export function runSigns({ log, trace, below }: DropSearch, { start, end }: LowRun): RunSigns | null {
  const before = recordsBefore(log, start);
  const cadenceBefore = median(before, (i) => log.cadenceRpm[i]) ?? Number.NaN;
  const powerBefore = median(before, (i) => log.powerW[i]) ?? Number.NaN;
  let fastest = start;
  let deepest = 0;
  let promise = 0;
  let lastedS = 0;
  let surest = 0;
  for (let i = start; i < end; i++) {
    surest = Math.max(surest, below.sureDepth(i) || 0);
    promise += below.depth(i) * Math.min(2, trace.samples.dtS[i]);
    lastedS += Math.min(2, trace.samples.dtS[i]);
    if (log.cadenceRpm[i] > log.cadenceRpm[fastest]) fastest = i;
    deepest = Math.max(deepest, below.depth(i));
  }
  // a ratio that lay too low before, with the chain driving, is the sensors' error: only what goes beyond it counts
  const belowBefore = median(before, below.depth);
  const bias = Math.max(0, belowBefore ?? 0);
  const depth = deepest - bias;
  if (bias > 0 && depth < below.threshold(start)) return null;
  // setting off with the chain off there is no cadence to compare with: the gear itself says how fast the legs should turn
  const settingOff = before.length === 0;
  const spin = settingOff ? depth : Math.log(log.cadenceRpm[fastest] / cadenceBefore);
  // the seconds in which the chain came off, or on again, hold some power: what counts is the second of the fastest legs and what follows
  const powerW = mean(log.powerW.subarray(fastest, end)) ?? Number.NaN;
  const little = log.powerW[end - 1] < IDLE_W && powerW < Math.max(LITTLE_W, LITTLE_OF_BEFORE * (powerBefore || 0));
  const powerGone = little && !(powerW >= LITTLE_OF_BEFORE * powerBefore);
  const powerThere = !Number.isNaN(powerW) && !little;
  const sure = surest > SURE_DEPTH && (belowBefore ?? Number.NaN) < below.threshold(start) / 2;
  return { spin, depth, promise, lastedS, settingOff, powerW, powerGone, powerThere, sure };
}

/** Pedalling records in the seconds before. */
function recordsBefore(log: RideLog, start: number): number[] {
  const records: number[] = [];
  for (let i = firstWithin(log.timeS, start, BEFORE_S); i < start; i++)
    if (log.cadenceRpm[i] > PEDALLING_RPM) records.push(i);
  return records;
}
