import type { RideTrace } from '../gear-trace/gear-trace.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { cogCommands } from './cog-commands.ts';
import { crankTorque } from './crank-torque.ts';
import { firstAfter } from './first-after.ts';
import { type GhostCandidate, LIFT_AT_MOST } from './ghost-rate.ts';
import { secondsEvidence } from './seconds-evidence.ts';

/** The contract: no command in the 5 s before, and the new cog held over 1 s. */
const NO_COMMAND_S = 5;
const MIN_HELD_S = 1;
/** Driving seconds that must show the new cog: fewer are a glitch. */
const MIN_SEEN_S = 2;
/** Odds against a ghost shift at any one moment, as log: one second in twenty minutes of pedalling (assumption of ours). */
const LOG_PRIOR_ODDS = -7;
/** Odds of three to one. */
const LEAST_LOG_ODDS = Math.log(3);
/** How far before the trace's change its first signs are looked for, s. */
const BACK_S = 4;

/**
 * Finds where the chain left the commanded cog by itself: runs of the trace on another cog that begin with no command in
 * the 5 s before. Returning to the commanded cog ends the run and is no ghost shift of its own. A run is weighed
 * second by second against the story that the chain stayed and the rider pedalled softly.
 */
export function ghostShifts(log: RideLog, trace: RideTrace, sensorLagS: number): GhostCandidate[] {
  const { model, commands } = trace;
  if (!model || commands.timeS.length === 0) return [];
  const evidence = secondsEvidence(log, trace, model.noise.independence);
  const shifted = cogCommands(commands);
  const found: GhostCandidate[] = [];
  let settledCog = -1;
  for (let start = 0; start < trace.cog.length; ) {
    const cog = trace.cog[start];
    let end = start + 1;
    while (end < trace.cog.length && trace.cog[end] === cog) end++;
    if (cog >= 0 && settledCog >= 0 && cog !== settledCog) {
      const ghost = weighRun(start, end, settledCog);
      if (ghost) found.push(ghost);
    }
    if (cog >= 0) settledCog = cog;
    start = end;
  }
  return found;

  /** First record that already speaks for the new cog: the trace waits for several before it changes. */
  function firstShown(start: number, fromCog: number): number {
    const { logDevelopment: levels, cogs } = model as NonNullable<typeof model>;
    const ring = trace.ring[start];
    let first = start;
    for (let i = start - 1; i >= 0 && log.timeS[start] - log.timeS[i] <= BACK_S; i--) {
      if (Number.isNaN(trace.logDevelopment[i]) || trace.ring[i] !== ring || ring < 0) break;
      if (evidence(i, levels[ring * cogs + trace.cog[start]]) <= evidence(i, levels[ring * cogs + fromCog])) break;
      first = i;
    }
    return first;
  }

  function weighRun(shownAt: number, end: number, fromCog: number): GhostCandidate | null {
    const toCog = trace.cog[shownAt];
    const start = firstShown(shownAt, fromCog);
    const atS = log.timeS[start] - sensorLagS;
    const last = firstAfter(shifted.timeS, atS + 1) - 1;
    if (last < 0 || atS - shifted.timeS[last] < NO_COMMAND_S) return null;
    if (fromCog !== shifted.cog[last] || toCog === fromCog) return null;
    const next = shifted.timeS[last + 1] ?? Number.POSITIVE_INFINITY;
    let logOdds = LOG_PRIOR_ODDS;
    let seenS = 0;
    for (let i = start; i < end && log.timeS[i] < next + sensorLagS; i++) {
      const ring = trace.ring[i];
      if (ring < 0 || Number.isNaN(trace.logDevelopment[i])) continue;
      const base = ring * (model as NonNullable<typeof model>).cogs;
      const levels = (model as NonNullable<typeof model>).logDevelopment;
      logOdds += evidence(i, levels[base + toCog]) - evidence(i, levels[base + fromCog]);
      if (trace.driving[i] > 0.5) seenS += Math.min(trace.samples.dtS[i], 2);
    }
    const endS = Math.min(next, log.timeS[Math.min(end, log.timeS.length - 1)] - sensorLagS);
    const heldS = endS - atS;
    if (heldS <= MIN_HELD_S || seenS < MIN_SEEN_S || logOdds < LEAST_LOG_ODDS - LIFT_AT_MOST) return null;
    return {
      ghost: { timeS: Math.max(0, atS), fromCog, toCog, heldS, torqueNm: crankTorque(log, start - 2, start + 2) },
      logOdds,
      leastLogOdds: LEAST_LOG_ODDS,
    };
  }
}
