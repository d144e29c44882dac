import { median } from 'd3-array';
import type { RideTrace } from '../gear-trace/gear-trace.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { WINDOW_INDEPENDENCE } from './arrival-table.ts';
import { cogCommands } from './cog-commands.ts';
import { crankTorque } from './crank-torque.ts';
import { firstAfter } from './first-after.ts';
import { type GhostCandidate, LIFT_AT_MOST } from './ghost-rate.ts';
import { secondsEvidence } from './seconds-evidence.ts';

const NO_COMMAND_S = 5;
/** Odds against an unasked shift beginning at any one record, as log (assumption of ours). */
const LOG_PRIOR_ODDS = -9;
const LEAST_LOG_ODDS = 3;
const LEAST_SEEN_S = 3;
const MOST_SEEN_S = 60;
/** Records further apart show no step. */
const NEXT_WITHIN_S = 3;
/** Records before that show how far the sensors are off at the time, and the most they are taken to be, in deviations. */
const DRIFT_S = 8;
const LEAST_BEFORE = 3;
const MOST_DRIFT = 1.5;
/** The first record may be half and half; the middle one rests on the new cog. */
const BEGUN = 0.4;
const RESTS_WITHIN = 2;
/** Share of the ratio's step that cadence makes, and that speed may seem to make: a chain that moves changes the legs' pace, not the wheel's. */
const CADENCE_SHARE = [0.6, 1.5] as const;
const SPEED_SHARE = 0.4;
const STEP_RECORDS = [1, 2, 3];

/**
 * Finds unasked shifts too short for the trace to follow: it takes each second for a part of independent evidence, since sensors err in
 * runs, and so waits for several. A cadence that steps at once by the ratio of two neighbouring cogs, at a speed that stays, is no such
 * run: it is weighed second by second, with what the sensors were off just before taken out.
 */
export function ghostSteps(log: RideLog, trace: RideTrace, sensorLagS: number): GhostCandidate[] {
  const { model } = trace;
  if (!model || trace.commands.timeS.length === 0) return [];
  const { logDevelopment: levels, cogs } = model;
  const commands = cogCommands(trace.commands);
  const evidence = secondsEvidence(log, trace, WINDOW_INDEPENDENCE);
  const found: GhostCandidate[] = [];
  for (let start = STEP_RECORDS.length; start < log.timeS.length; start++) {
    const cog = trace.cog[start];
    const last = firstAfter(commands.timeS, log.timeS[start] - sensorLagS + 1) - 1;
    if (!followsOn(start, cog, last)) continue;
    const drift = driftBefore(start, cog);
    if (Number.isNaN(drift)) continue;
    for (const toCog of [cog - 1, cog + 1]) {
      if (toCog < 0 || toCog >= cogs) continue;
      const run = weigh(start, cog, toCog, drift, (commands.timeS[last + 1] ?? Number.POSITIVE_INFINITY) + sensorLagS);
      if (!run) continue;
      found.push({
        ghost: {
          timeS: Math.max(0, log.timeS[start] - sensorLagS),
          fromCog: cog,
          toCog,
          heldS: log.timeS[Math.min(run.end, log.timeS.length - 1)] - log.timeS[start],
          torqueNm: crankTorque(log, start - 2, start + 2),
        },
        logOdds: run.logOdds,
        leastLogOdds: LEAST_LOG_ODDS,
      });
    }
  }
  return found;

  function level(record: number, cog: number): number {
    return levels[trace.ring[record] * cogs + cog];
  }

  /** Whether the trace drives on the commanded cog here and at the record before, with no command to explain a move. */
  function followsOn(i: number, cog: number, last: number): boolean {
    if (cog < 0 || trace.ring[i] < 0 || Number.isNaN(trace.logDevelopment[i]) || !(trace.driving[i] > 0.5))
      return false;
    if (trace.cog[i - 1] !== cog || trace.ring[i - 1] !== trace.ring[i]) return false;
    return last >= 0 && commands.cog[last] === cog && log.timeS[i] - sensorLagS - commands.timeS[last] >= NO_COMMAND_S;
  }

  /** How far the ratio lay off the cog just before; NaN where too little was seen. */
  function driftBefore(start: number, cog: number): number {
    const off: number[] = [];
    for (let k = start - 1; k >= 0 && log.timeS[start] - log.timeS[k] <= DRIFT_S; k--) {
      if (trace.cog[k] !== cog || trace.ring[k] !== trace.ring[start]) continue;
      const away = trace.logDevelopment[k] - level(k, cog);
      if (Math.abs(away) < 3 * trace.deviation[k]) off.push(away);
    }
    const most = MOST_DRIFT * trace.deviation[start];
    return off.length < LEAST_BEFORE ? Number.NaN : Math.max(-most, Math.min(most, median(off) as number));
  }

  function weigh(
    start: number,
    cog: number,
    toCog: number,
    drift: number,
    untilS: number,
  ): { end: number; logOdds: number } | null {
    const step = level(start, toCog) - level(start, cog);
    if ((trace.logDevelopment[start] - level(start, cog) - drift) / step < BEGUN) return null;
    let logOdds = LOG_PRIOR_ODDS;
    let seenS = 0;
    let end = start;
    const apart: number[] = [];
    for (
      ;
      end < log.timeS.length && log.timeS[end] < untilS && log.timeS[end] - log.timeS[start] < MOST_SEEN_S;
      end++
    ) {
      if (Number.isNaN(trace.logDevelopment[end]) || trace.ring[end] !== trace.ring[start]) break;
      if (trace.samples.dtS[end] > NEXT_WITHIN_S) break;
      const gain = evidence(end, level(end, toCog) + drift) - evidence(end, level(end, cog) + drift);
      if (end > start + 1 && gain < 0) break;
      logOdds += gain;
      seenS += Math.min(2, trace.samples.dtS[end]);
      apart.push(Math.abs(trace.logDevelopment[end] - level(end, toCog) - drift) / trace.deviation[end]);
    }
    if (seenS < LEAST_SEEN_S || logOdds < LEAST_LOG_ODDS - LIFT_AT_MOST || !((median(apart) as number) < RESTS_WITHIN))
      return null;
    const byCadence = -stepOf(log.cadenceRpm, start) / step;
    const bySpeed = stepOf(log.speedMps, start) / step;
    const steps = byCadence > CADENCE_SHARE[0] && byCadence < CADENCE_SHARE[1] && Math.abs(bySpeed) < SPEED_SHARE;
    return steps ? { end, logOdds } : null;
  }
}

/** Log step of a column about a record: the median of the three after against that of the three before. */
function stepOf(column: Float64Array, at: number): number {
  const around = (side: number): number => Math.log(median(STEP_RECORDS, (k) => column[at + side * k]) ?? Number.NaN);
  return around(1) - around(-1);
}
