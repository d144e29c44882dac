import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { sameBurst } from '../commands/same-burst.ts';
import { firstAfter } from '../first-after.ts';
import { type Halt, haltAfter } from './halt-after.ts';
import type { DropFinding } from './likeliest-apart.ts';

/** Who coasts before the shift has a stop in mind already: in these seconds so many records must show the chain driving. */
const BEFORE_S = 3;
const LEAST_DRIVING = 2;
/** Legs without a chain stop this soon. */
const LONGEST_PEDALLING_S = 4;
const HALT_LASTS_S = 12;
/** A halt this long is longer than most at a junction. */
const LONG_HALT_S = 25;
/** A ratio this far below the end cog's, log share: the shift had not come through when the legs stopped. */
const SHORT_OF_COG = 0.15;
/** So many records within so many deviations of the end cog's ratio: the chain drove there. */
const ARRIVED_RECORDS = 2;
const ARRIVED_WITHIN = 1.5;
/** A bike that slows down more than this within `SLOWING_S` is braked for a stop that was meant, m/s². */
const BRAKED = 1.8;
const SLOWING_S = 5;

/**
 * What is weighed (log odds, assumptions of ours; the sum decides). Riders shift to larger cogs before a stop they see coming, so past the
 * largest only legs that run away tell. Nobody shifts to the smallest for a stop, but a bike rolls on longer there.
 */
const ODDS = {
  largest: { haltWithinS: 7, before: -5.5, spin: 12, mostSpin: 4 },
  smallest: { haltWithinS: 22, before: -2.05, spin: 20, mostSpin: 1.5 },
  shortOfCog: 1,
  arrived: -2,
  longHalt: 1,
  braked: -2,
} as const;

/**
 * Finds chains lost where the legs noticed at once and stopped: the chain drove, it was asked onto an end cog, within seconds nobody pedalled any
 * more, and the bike rolled to a halt of some length. The ratio alone says nothing there, since the chain may not have left the cog before.
 */
export function haltsAtEnd(log: RideLog, trace: RideTrace): DropFinding[] {
  const { model, commands } = trace;
  if (!model) return [];
  const { wholeSeconds } = log.gearRecords;
  const found: DropFinding[] = [];
  for (let c = 1; c < commands.timeS.length; c++) {
    const end = commands.cog[c] === 0 ? 'smallest' : commands.cog[c] === model.cogs - 1 ? 'largest' : null;
    const nextS = commands.timeS[c + 1] ?? Number.POSITIVE_INFINITY;
    if (!end || commands.cog[c] === commands.cog[c - 1] || sameBurst(nextS - commands.timeS[c], wholeSeconds)) continue;
    const start = firstAfter(log.timeS, commands.timeS[c] - 0.01);
    if (start >= log.timeS.length || !droveBefore(log, trace, start)) continue;
    const halt = haltAfter(log, start, ODDS[end].haltWithinS, HALT_LASTS_S);
    const last = halt.lastsS > 0 ? lastPedalled(log, start, halt) : null;
    if (last === null || nextS < log.timeS[last]) continue;
    found.push({ start, logOdds: haltLogOdds(log, trace, { cog: commands.cog[c], start, last, halt }) });
  }
  return found;
}

function droveBefore(log: RideLog, trace: RideTrace, start: number): boolean {
  let driving = 0;
  for (let i = start - 1; i >= 0 && log.timeS[start] - log.timeS[i] <= BEFORE_S; i--)
    if (log.cadenceRpm[i] > PEDALLING_RPM && trace.driving[i] > 0.5) driving++;
  return driving >= LEAST_DRIVING;
}

/** The last record with turning legs before the halt; null where they turned on for too long. */
function lastPedalled({ timeS, cadenceRpm }: RideLog, start: number, halt: Halt): number | null {
  let last = start;
  for (let i = start; i < timeS.length && timeS[i] - timeS[start] < halt.inS; i++)
    if (cadenceRpm[i] > PEDALLING_RPM) last = i;
  return timeS[last] - timeS[start] <= LONGEST_PEDALLING_S ? last : null;
}

interface HaltAtEnd {
  readonly cog: number;
  readonly start: number;
  readonly last: number;
  readonly halt: Halt;
}

function haltLogOdds(log: RideLog, trace: RideTrace, { cog, start, last, halt }: HaltAtEnd): number {
  const { spin, below, arrived } = legsAfter(log, trace, { cog, start, last });
  const end = cog === 0 ? ODDS.smallest : ODDS.largest;
  return (
    end.before +
    Math.min(end.mostSpin, end.spin * spin) +
    (below > SHORT_OF_COG ? ODDS.shortOfCog : 0) +
    (arrived >= ARRIVED_RECORDS ? ODDS.arrived : 0) +
    (halt.lastsS >= LONG_HALT_S ? ODDS.longHalt : 0) +
    (hardestBraking(log, start) > BRAKED ? ODDS.braked : 0)
  );
}

/** From the shift to the second after the last turn: how much faster the legs ran than before, how far below the cog's lowest ratio, records on it. */
function legsAfter(
  log: RideLog,
  { model, logDevelopment, deviation }: RideTrace,
  { cog, start, last }: Pick<HaltAtEnd, 'cog' | 'start' | 'last'>,
): { spin: number; below: number; arrived: number } {
  const levels = model?.logDevelopment.filter((_, gear) => gear % model.cogs === cog) ?? [];
  const lowest = Math.min(...levels);
  const before = log.cadenceRpm[start - 1];
  let [spin, below, arrived] = [0, 0, 0];
  for (let i = start; i < log.timeS.length && log.timeS[i] <= log.timeS[last] + 1; i++) {
    if (!(log.cadenceRpm[i] > 0)) continue;
    below = Math.max(below, lowest - Math.log((log.speedMps[i] * 60) / log.cadenceRpm[i]));
    if (before > PEDALLING_RPM) spin = Math.max(spin, Math.log(log.cadenceRpm[i] / before));
    if (levels.some((level) => Math.abs(logDevelopment[i] - level) < ARRIVED_WITHIN * deviation[i])) arrived++;
  }
  return { spin, below, arrived };
}

/** Hardest loss of speed in the seconds after a record, m/s². */
function hardestBraking({ timeS, speedMps }: RideLog, start: number): number {
  let hardest = 0;
  for (let i = start + 1; i < timeS.length && timeS[i] - timeS[start] <= SLOWING_S; i++)
    hardest = Math.max(hardest, (speedMps[i - 1] - speedMps[i]) / Math.max(1, timeS[i] - timeS[i - 1]));
  return hardest;
}
