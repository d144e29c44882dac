import { median } from 'd3-array';
import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { crankTorque } from '../crank-torque.ts';
import { firstAfter } from '../first-after.ts';
import { firstWithin } from '../records-about.ts';
import { WINDOW_INDEPENDENCE } from '../ride-in-question.ts';
import { NO_COMMAND_S } from '../turn-limits.ts';
import { type GhostCandidate, LIFT_AT_MOST } from './ghost-rate.ts';
import { easedOff, type GhostSearch, ghostSearch, isRecordedLate, levelAt, RESTS_WITHIN } from './ghost-search.ts';

/** Odds against an unasked shift beginning at any one record, as log (assumption of ours). */
const LOG_PRIOR_ODDS = -9;
/** Log odds that a step needs, and for how long it must be seen, and is followed at most. */
const LEAST_LOG_ODDS = 3;
const LEAST_SEEN_S = 3;
const MOST_SEEN_S = 60;
/** Records further apart show no step. */
const NEXT_WITHIN_S = 3;
/** Records before that show how far the sensors are off at the time, and the most they are taken to be, in deviations. */
const DRIFT_S = 8;
const LEAST_BEFORE = 3;
const MOST_DRIFT = 1.5;
/** The first record may be half and half. */
const BEGUN = 0.4;
/** Share of the ratio's step that cadence makes, and that speed may seem to make: a chain that moves changes the legs' pace, not the wheel's. */
const CADENCE_SHARE = [0.6, 1.5] as const;
const SPEED_SHARE = 0.4;
/** Records on each side of a step by which its size is taken. */
const STEP_RECORDS = [1, 2, 3];

/** A move of the chain in question: from `cog` to its neighbour `toCog` at record `start`. */
interface Move {
  readonly start: number;
  readonly cog: number;
  readonly toCog: number;
  /** How far the ratio lay off the cog just before, in log development. */
  readonly drift: number;
  /** When the next command shows itself, s; Infinity where there is none. */
  readonly untilS: number;
}

/**
 * Finds unasked shifts too short for the trace to follow: it takes each second for a part of independent evidence, since sensors err in
 * runs, and so waits for several. A cadence that steps at once by the ratio of two neighbouring cogs, at a speed that stays, is no such
 * run: it is weighed second by second, with what the sensors were off just before taken out.
 */
export function ghostSteps(log: RideLog, trace: RideTrace, sensorLagS: number): GhostCandidate[] {
  const ride = ghostSearch(log, trace, sensorLagS, WINDOW_INDEPENDENCE);
  if (!ride) return [];
  const { model, commands } = ride;
  const found: GhostCandidate[] = [];
  for (let start = STEP_RECORDS.length; start < log.timeS.length; start++) {
    const cog = trace.cog[start];
    const last = firstAfter(commands.timeS, log.timeS[start] - sensorLagS + 1) - 1;
    if (!followsOn(ride, start, cog, last)) continue;
    const drift = driftBefore(ride, start, cog);
    if (Number.isNaN(drift)) continue;
    const untilS = (commands.timeS[last + 1] ?? Number.POSITIVE_INFINITY) + sensorLagS;
    for (const toCog of [cog - 1, cog + 1]) {
      if (toCog < 0 || toCog >= model.cogs) continue;
      const atS = log.timeS[start] - sensorLagS;
      if (isRecordedLate(ride, last, { atS, fromCog: cog, toCog })) continue;
      const candidate = moveAsGhost(ride, { start, cog, toCog, drift, untilS });
      if (candidate) found.push(candidate);
    }
  }
  return found;
}

/**
 * Whether the trace drives on the commanded cog at the record before, and is on it here still, with no command to explain a move. Whether it
 * drives here is no matter: the record in which the chain moves lies between two cogs, and may look like freewheeling.
 */
function followsOn({ log, trace, commands, sensorLagS }: GhostSearch, i: number, cog: number, last: number): boolean {
  if (cog < 0 || trace.ring[i] < 0 || Number.isNaN(trace.logDevelopment[i])) return false;
  if (trace.cog[i - 1] !== cog || trace.ring[i - 1] !== trace.ring[i] || !(trace.driving[i - 1] > 0.5)) return false;
  return last >= 0 && commands.cog[last] === cog && log.timeS[i] - sensorLagS - commands.timeS[last] >= NO_COMMAND_S;
}

/** How far the ratio lay off the cog just before; NaN where too little was seen. */
function driftBefore(ride: GhostSearch, start: number, cog: number): number {
  const { log, trace } = ride;
  const off: number[] = [];
  for (let k = firstWithin(log.timeS, start, DRIFT_S); k < start; k++) {
    if (trace.cog[k] !== cog || trace.ring[k] !== trace.ring[start]) continue;
    const away = trace.logDevelopment[k] - levelAt(ride, k, cog);
    if (Math.abs(away) < 3 * trace.deviation[k]) off.push(away);
  }
  const most = MOST_DRIFT * trace.deviation[start];
  return off.length < LEAST_BEFORE ? Number.NaN : Math.max(-most, Math.min(most, median(off) as number));
}

/** The unasked shift that a move would be; null where the records speak against it. */
function moveAsGhost(ride: GhostSearch, move: Move): GhostCandidate | null {
  const { log, trace, sensorLagS } = ride;
  const { start, cog, toCog, drift } = move;
  const step = levelAt(ride, start, toCog) - levelAt(ride, start, cog);
  if ((trace.logDevelopment[start] - levelAt(ride, start, cog) - drift) / step < BEGUN) return null;
  const { end, logOdds, seenS, apart } = follow(ride, move);
  if (seenS < LEAST_SEEN_S || logOdds < LEAST_LOG_ODDS - LIFT_AT_MOST || !(apart < RESTS_WITHIN)) return null;
  if (toCog < cog && easedOff(ride, { start, end, toCog })) return null;
  const byCadence = -stepOf(log.cadenceRpm, start) / step;
  const bySpeed = stepOf(log.speedMps, start) / step;
  if (!(byCadence > CADENCE_SHARE[0] && byCadence < CADENCE_SHARE[1] && Math.abs(bySpeed) < SPEED_SHARE)) return null;
  const ghost = {
    timeS: Math.max(0, log.timeS[start] - sensorLagS),
    fromCog: cog,
    toCog,
    heldS: log.timeS[Math.min(end, log.timeS.length - 1)] - log.timeS[start],
    torqueNm: crankTorque(log, start - 2, start + 2),
  };
  return { ghost, logOdds, leastLogOdds: LEAST_LOG_ODDS };
}

/**
 * Follows the records from a move on as long as they speak for the new cog. `end` exclusive; `apart`: median distance from the
 * new cog, in deviations, NaN where none was followed.
 */
function follow(
  ride: GhostSearch,
  { start, cog, toCog, drift, untilS }: Move,
): { end: number; logOdds: number; seenS: number; apart: number } {
  const { log, trace, evidence } = ride;
  const isSeen = (i: number): boolean =>
    i < log.timeS.length &&
    log.timeS[i] < untilS &&
    log.timeS[i] - log.timeS[start] < MOST_SEEN_S &&
    !Number.isNaN(trace.logDevelopment[i]) &&
    trace.ring[i] === trace.ring[start] &&
    !(trace.samples.dtS[i] > NEXT_WITHIN_S);
  let logOdds = LOG_PRIOR_ODDS;
  let seenS = 0;
  let end = start;
  const apart: number[] = [];
  for (; isSeen(end); end++) {
    const there = levelAt(ride, end, toCog) + drift;
    const gain = evidence(end, there) - evidence(end, levelAt(ride, end, cog) + drift);
    if (end > start + 1 && gain < 0) break;
    logOdds += gain;
    seenS += Math.min(2, trace.samples.dtS[end]);
    apart.push(Math.abs(trace.logDevelopment[end] - levelAt(ride, end, toCog) - drift) / trace.deviation[end]);
  }
  return { end, logOdds, seenS, apart: median(apart) ?? Number.NaN };
}

/** Log step of a column about a record: the median of the three after against that of the three before. */
function stepOf(column: Float64Array, at: number): number {
  const around = (side: number): number => Math.log(median(STEP_RECORDS, (k) => column[at + side * k]) ?? Number.NaN);
  return around(1) - around(-1);
}
