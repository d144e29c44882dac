import { quantile } from 'd3-array';
import type { GearModel } from '../../gear-trace/gear-model.ts';
import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { haltAfter } from './halt-after.ts';
import type { DropFinding } from './likeliest-apart.ts';
import { gainWithoutDrive, speedGain } from './speed-gain.ts';

/** The cadence that this share of a ride's records with turning cranks does not exceed is the usual one. */
const USUAL_SHARE = 0.95;
/** The legs must run this much faster than that: riders who turn the cranks idly do it slowly. */
const LEAST_SPIN = 1.1;
/** Legs that turned already run this much faster than in the record before: without the chain they leap. */
const LEAST_LEAP = 1.08;
const LEAST_BELOW = 0.1;
const NO_PULL_W = 40;
/** A rider who notices stops turning the cranks at once, rolls out and stays standing. */
const LONGEST_SPIN_S = 6;
const HALT_WITHIN_S = 45;
const HALT_LASTS_S = 15;
const IDLE_RPM = 40;
const SOON_S = 20;
const LEAST_ODDS = 1;
/** Some sensors show cadence this much later than speed: in a bike that brakes it then looks too fast. */
const LATE_CADENCE_S = 2.5;

/** Weights of the signs, in log odds (assumptions of ours; the sum decides). */
const ODDS = {
  before: -5.5,
  spin: 40,
  mostSpin: 4,
  below: 4,
  mostBelow: 2,
  soon: 1.5,
  late: -1,
  idlePower: 1,
  end: 1.5,
  single: -2,
} as const;

/**
 * Finds where the legs spun against nothing right after coasting over shifts. There the chain may still lie anywhere between the old
 * cog and the new, so the ratio alone proves nothing. But legs that suddenly run faster than this rider ever pedals, on a lower gear than the
 * commanded one and without power, then stop until the bike has halted for a while, have lost their chain.
 */
export function freeSpins(log: RideLog, trace: RideTrace): DropFinding[] {
  if (!trace.model || trace.commands.timeS.length === 0) return [];
  const search: SpinSearch = { log, trace, model: trace.model, usualRpm: usualCadence(log) };
  const found: DropFinding[] = [];
  for (let start = 1; start < log.timeS.length; start++) {
    const spin = spinAt(search, start);
    if (!spin) continue;
    const logOdds = spinLogOdds(search, spin);
    if (logOdds > LEAST_ODDS) found.push({ start, logOdds });
    start = spin.end;
  }
  return found;
}

interface SpinSearch {
  readonly log: RideLog;
  readonly trace: RideTrace;
  readonly model: GearModel;
  readonly usualRpm: number;
}

/** Records in which the legs turned on without a stop (`end` exclusive), begun fast and without power, and their fastest, as a multiple of the usual cadence. */
interface Spin {
  readonly start: number;
  readonly end: number;
  readonly fastest: number;
}

/** The cadence that a ride hardly ever exceeds, rpm. */
function usualCadence({ cadenceRpm }: RideLog): number {
  const turning = cadenceRpm.filter((rpm) => rpm > PEDALLING_RPM);
  return quantile(turning, USUAL_SHARE) ?? Number.NaN;
}

function spinAt({ log, usualRpm }: SpinSearch, start: number): Spin | null {
  const { cadenceRpm, powerW } = log;
  if (!(cadenceRpm[start] / usualRpm > LEAST_SPIN) || powerW[start] > NO_PULL_W) return null;
  const before = cadenceRpm[start - 1];
  if (before > PEDALLING_RPM && cadenceRpm[start] < LEAST_LEAP * before) return null;
  let end = start;
  let fastest = 0;
  for (; end < cadenceRpm.length && cadenceRpm[end] > PEDALLING_RPM; end++)
    fastest = Math.max(fastest, cadenceRpm[end] / usualRpm);
  return { start, end, fastest };
}

/** Log odds that a spin was one without the chain; -Infinity where something rules it out. */
function spinLogOdds(search: SpinSearch, { start, end, fastest }: Spin): number {
  const { log, trace, model, usualRpm } = search;
  const below = belowCommanded(search, start);
  const spinS = log.timeS[Math.min(end, log.timeS.length - 1)] - log.timeS[start];
  const halt = haltAfter(log, start, HALT_WITHIN_S, HALT_LASTS_S);
  if (!(below > LEAST_BELOW) || spinS > LONGEST_SPIN_S || halt.lastsS === 0) return Number.NEGATIVE_INFINITY;
  for (let i = end; i < log.timeS.length && log.timeS[i] - log.timeS[start] < halt.inS; i++)
    if (log.cadenceRpm[i] > IDLE_RPM) return Number.NEGATIVE_INFINITY;
  const idle = log.powerW[start] <= NO_PULL_W || !(log.cadenceRpm[start - 1] > PEDALLING_RPM);
  if (!idle && speedGain(log, start, end) > gainWithoutDrive(below * spinS)) return Number.NEGATIVE_INFINITY;
  const cog = trace.commands.cog[trace.commands.latest[start]];
  const single = end - start === 1 || !(log.cadenceRpm[start + 1] > usualRpm * LEAST_SPIN);
  return (
    ODDS.before +
    Math.min(ODDS.mostSpin, ODDS.spin * (fastest - LEAST_SPIN)) +
    Math.min(ODDS.mostBelow, ODDS.below * below) +
    (halt.inS < SOON_S ? ODDS.soon : ODDS.late) +
    (log.powerW[start] <= NO_PULL_W ? ODDS.idlePower : 0) +
    (single ? ODDS.single : 0) +
    (cog === 0 || cog === model.cogs - 1 ? ODDS.end : 0)
  );
}

/** How far the ratio lies below the commanded cog on any ring; NaN without a command or a ratio. */
function belowCommanded({ log, trace, model }: SpinSearch, i: number): number {
  const cog = trace.commands.cog[trace.commands.latest[i]];
  if (!(cog >= 0)) return Number.NaN;
  const ratio = Math.log((fastestBefore(log, i) * 60) / log.cadenceRpm[i]);
  let below = Number.POSITIVE_INFINITY;
  for (let ring = 0; ring < model.rings; ring++)
    below = Math.min(below, model.logDevelopment[ring * model.cogs + cog] - ratio);
  return below;
}

/** Fastest speed of the seconds in which the wheel may have turned as the cadence of a record tells, m/s. */
function fastestBefore({ timeS, speedMps }: RideLog, i: number): number {
  let fastest = speedMps[i];
  for (let k = i - 1; k >= 0 && timeS[i] - timeS[k] <= LATE_CADENCE_S; k--)
    if (speedMps[k] > fastest) fastest = speedMps[k];
  return fastest;
}
