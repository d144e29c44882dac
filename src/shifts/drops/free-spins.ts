import { max } from 'd3-array';
import type { GearModel } from '../../gear-trace/gear-model.ts';
import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { firstWithin } from '../records-about.ts';
import type { DropCandidate, MeasuredSign } from './drop-candidate.ts';
import { endCogSign } from './end-cog-sign.ts';
import { haltAfter } from './halt-after.ts';
import { gainWithoutDrive, speedGain } from './speed-gain.ts';
import { LEAST_SPIN, usualCadence } from './usual-cadence.ts';

/** Legs that turned already run this much faster than in the record before: without the chain they leap. */
const LEAST_LEAP = 1.08;
/** The ratio lies this far below the commanded cog (log) at least. */
const LEAST_BELOW = 0.1;
/** Legs that pull no harder than this turn against nothing. */
const NO_PULL_W = 40;
/** A rider who notices stops turning the cranks at once, rolls out and stays standing. */
const LONGEST_SPIN_S = 6;
const HALT_WITHIN_S = 45;
const HALT_LASTS_S = 15;
/** Until that halt the cranks are turned no faster than this. */
const IDLE_RPM = 40;
/** Some sensors show cadence this much later than speed: in a bike that brakes it then looks too fast. */
const LATE_CADENCE_S = 2.5;

/**
 * Finds where the legs spun against nothing right after coasting over shifts. There the chain may still lie anywhere between the old
 * cog and the new, so the ratio alone proves nothing. But legs that suddenly run faster than this rider ever pedals, on a lower gear than the
 * commanded one and without power, then stop until the bike has halted for a while, have lost their chain.
 */
export function freeSpins(log: RideLog, trace: RideTrace): DropCandidate[] {
  if (!trace.model || trace.commands.timeS.length === 0) return [];
  const search: SpinSearch = { log, trace, model: trace.model, usualRpm: usualCadence(log) };
  const found: DropCandidate[] = [];
  for (let start = 1; start < log.timeS.length; start++) {
    const spin = spinAt(search, start);
    if (!spin) continue;
    const signs = spinSigns(search, spin);
    if (signs) found.push({ pattern: 'free-spin', start, signs });
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

/** The signs that a spin was one without the chain; null where something rules that out. */
function spinSigns(search: SpinSearch, { start, end, fastest }: Spin): MeasuredSign[] | null {
  const { log, trace, model, usualRpm } = search;
  const below = belowCommanded(search, start);
  const spinS = log.timeS[Math.min(end, log.timeS.length - 1)] - log.timeS[start];
  const halt = haltAfter(log, start, HALT_WITHIN_S, HALT_LASTS_S);
  if (!(below > LEAST_BELOW) || spinS > LONGEST_SPIN_S || halt.lastsS === 0) return null;
  for (let i = end; i < log.timeS.length && log.timeS[i] - log.timeS[start] < halt.inS; i++)
    if (log.cadenceRpm[i] > IDLE_RPM) return null;
  const powerGone = log.powerW[start] <= NO_PULL_W;
  const idle = powerGone || !(log.cadenceRpm[start - 1] > PEDALLING_RPM);
  if (!idle && speedGain(log, start, end) > gainWithoutDrive(below * spinS)) return null;
  const signs: MeasuredSign[] = [
    { sign: 'legs-past-usual', value: fastest },
    { sign: 'legs-fast-for', value: spinS },
    { sign: 'past-gear', value: below },
    { sign: 'halt-after', value: halt.inS },
    { sign: 'halt-lasts', value: halt.lastsS },
  ];
  if (powerGone) signs.push({ sign: 'power-gone', value: log.powerW[start] });
  if (end - start === 1 || !(log.cadenceRpm[start + 1] > usualRpm * LEAST_SPIN))
    signs.push({ sign: 'single-reading', value: Number.NaN });
  const cog = trace.commands.cog[trace.commands.latest[start]];
  if (cog === 0 || cog === model.cogs - 1) signs.push(endCogSign(sinceAsked(search, start)));
  return signs;
}

/** Seconds since the cog was asked for that is the commanded one at a record. */
function sinceAsked({ log, trace: { commands } }: SpinSearch, i: number): number {
  let asked = commands.latest[i];
  while (asked > 0 && commands.cog[asked - 1] === commands.cog[asked]) asked--;
  return log.timeS[i] - commands.timeS[asked];
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
const fastestBefore = ({ timeS, speedMps }: RideLog, i: number): number =>
  max(speedMps.subarray(firstWithin(timeS, i, LATE_CADENCE_S), i + 1)) ?? Number.NaN;
