import { median } from 'd3-array';
import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { crankTorque } from '../crank-torque.ts';
import { firstAfter } from '../first-after.ts';
import { NO_COMMAND_S } from '../turn-limits.ts';
import { type GhostCandidate, LIFT_AT_MOST } from './ghost-rate.ts';
import {
  easedOff,
  type GhostSearch,
  ghostSearch,
  isRecordedLate,
  levelAt,
  levelOn,
  RESTS_WITHIN,
  tooWide,
} from './ghost-search.ts';
import type { GoesAtLast } from './goes-at-last.ts';

/** The contract: the new cog is held over 1 s. */
const MIN_HELD_S = 1;
/** Driving seconds that must show the new cog: fewer are a glitch. */
const MIN_SEEN_S = 2;
/** Odds against a ghost shift, as log, where the trace leaves the commanded cog for another with no command (assumption of ours). */
const LOG_PRIOR_ODDS = -6;
/** The same for a chain that has missed its cog and still pulls towards it: one second in one minute (assumption of ours). */
const LOG_PRIOR_ODDS_WHEN_MISSED = -4;
/** Odds of three to one. */
const LEAST_LOG_ODDS = Math.log(3);
/** How far before the trace's change its first signs are looked for, s. */
const BACK_S = 4;

/**
 * Finds where the chain changed cog by itself: runs of the trace on another cog that begin with no command in the 5 s before, away from
 * the commanded cog or at last towards one that was missed (`atLast`). Returning to the commanded cog after a ghost shift ends the run and
 * is none of its own. A run is weighed second by second against the story that the chain stayed and the rider pedalled softly.
 */
export function ghostShifts(
  log: RideLog,
  trace: RideTrace,
  sensorLagS: number,
  atLast: GoesAtLast = () => false,
): GhostCandidate[] {
  const ride = ghostSearch(log, trace, sensorLagS);
  if (!ride) return [];
  const found: GhostCandidate[] = [];
  let settledCog = -1;
  let settledRing = -1;
  for (let start = 0; start < trace.cog.length; ) {
    const cog = trace.cog[start];
    let end = start + 1;
    while (end < trace.cog.length && trace.cog[end] === cog) end++;
    if (cog >= 0 && settledCog >= 0 && cog !== settledCog) {
      const ghost = weighRun(ride, { shownAt: start, end, fromCog: settledCog, fromRing: settledRing }, atLast);
      if (ghost) found.push(ghost);
    }
    if (cog >= 0) [settledCog, settledRing] = [cog, trace.ring[end - 1]];
    start = end;
  }
  return found;
}

/** First record that already speaks for the new cog: the trace waits for several before it changes. */
function firstShown(ride: GhostSearch, start: number, fromCog: number): number {
  const { log, trace, evidence } = ride;
  const ring = trace.ring[start];
  const toCog = trace.cog[start];
  let first = start;
  for (let i = start - 1; i >= 0 && log.timeS[start] - log.timeS[i] <= BACK_S; i--) {
    if (Number.isNaN(trace.logDevelopment[i]) || trace.ring[i] !== ring || ring < 0) break;
    if (evidence(i, levelAt(ride, i, toCog)) <= evidence(i, levelAt(ride, i, fromCog))) break;
    first = i;
  }
  return first;
}

/** A run of the trace on one cog, from record `shownAt` up to `end`, after it had settled on `fromCog` and `fromRing` (-1: not known). */
interface Run {
  readonly shownAt: number;
  readonly end: number;
  readonly fromCog: number;
  readonly fromRing: number;
}

/** The unasked shift that a run of the trace would be; null where commands explain it or the records speak against it. */
function weighRun(ride: GhostSearch, run: Run, atLast: GoesAtLast): GhostCandidate | null {
  const { log, trace, commands, sensorLagS } = ride;
  const { end, fromCog, fromRing } = run;
  const toCog = trace.cog[run.shownAt];
  const start = firstShown(ride, run.shownAt, fromCog);
  const atS = log.timeS[start] - sensorLagS;
  const last = firstAfter(commands.timeS, atS + 1) - 1;
  if (last < 0 || atS - commands.timeS[last] < NO_COMMAND_S || tooWide(fromCog, toCog)) return null;
  const towardsCommand = fromCog !== commands.cog[last];
  if (towardsCommand && !atLast({ commandS: commands.timeS[last], atS, fromCog, toCog })) return null;
  if (!towardsCommand && isRecordedLate(ride, last, { atS, fromCog, toCog })) return null;
  const next = commands.timeS[last + 1] ?? Number.POSITIVE_INFINITY;
  const { gain, seenS, apart } = gainOver(ride, { start, end, fromCog, fromRing }, next + sensorLagS);
  const logOdds = gain + (towardsCommand ? LOG_PRIOR_ODDS_WHEN_MISSED : LOG_PRIOR_ODDS);
  const endS = Math.min(next, log.timeS[Math.min(end, log.timeS.length - 1)] - sensorLagS);
  const heldS = endS - atS;
  if (heldS <= MIN_HELD_S || seenS < MIN_SEEN_S || logOdds < LEAST_LOG_ODDS - LIFT_AT_MOST) return null;
  // legs that hesitate, or a sensor that averages, pass between the cogs and rest on none
  if (!(apart < RESTS_WITHIN)) return null;
  if (toCog < fromCog && !towardsCommand && easedOff(ride, { start, end, toCog })) return null;
  const torqueNm = crankTorque(log, start - 2, start + 2);
  return {
    ghost: { timeS: Math.max(0, atS), fromCog, toCog, heldS, towardsCommand, torqueNm },
    logOdds,
    leastLogOdds: LEAST_LOG_ODDS,
  };
}

/**
 * What the records of a run, up to `untilS`, add to the log odds that the chain moved, the seconds in which it drove, and how far from the new
 * cog its middle record lies, in deviations (NaN where none shows a ratio). Where the trace changed
 * ring as well, the chain may have stayed on both: a larger ring with a larger cog is nearly the gear it was.
 */
function gainOver(
  ride: GhostSearch,
  { start, end, fromCog, fromRing }: Omit<Run, 'shownAt'> & { readonly start: number },
  untilS: number,
): { gain: number; seenS: number; apart: number } {
  const { log, trace, evidence } = ride;
  const toCog = trace.cog[end - 1];
  let gain = 0;
  let seenS = 0;
  const apart: number[] = [];
  for (let i = start; i < end && log.timeS[i] < untilS; i++) {
    if (trace.ring[i] < 0 || Number.isNaN(trace.logDevelopment[i])) continue;
    const stayed = evidence(i, levelAt(ride, i, fromCog));
    const onOldRing = fromRing < 0 ? stayed : evidence(i, levelOn(ride, fromRing, fromCog));
    gain += evidence(i, levelAt(ride, i, toCog)) - Math.max(stayed, onOldRing);
    apart.push(Math.abs(trace.logDevelopment[i] - levelAt(ride, i, toCog)) / trace.deviation[i]);
    if (trace.driving[i] > 0.5) seenS += Math.min(trace.samples.dtS[i], 2);
  }
  return { gain, seenS, apart: median(apart) ?? Number.NaN };
}
