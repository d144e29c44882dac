import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { sameBurst } from '../commands/same-burst.ts';
import { firstAfter } from '../first-after.ts';
import type { DropCandidate, MeasuredSign } from './drop-candidate.ts';
import { endCogSign } from './end-cog-sign.ts';
import { type Halt, haltAfter } from './halt-after.ts';

/** Who coasts before the shift has a stop in mind already: in these seconds so many records must show the chain driving. */
const BEFORE_S = 3;
const LEAST_DRIVING = 2;
/** Legs without a chain stop this soon. */
const LONGEST_PEDALLING_S = 4;
const HALT_LASTS_S = 12;
/** So long after a shift onto an end cog the halt may begin: in the gear of the smallest a bike rolls on longer. */
const HALT_WITHIN_S = { largest: 7, smallest: 22 } as const;
/** Within so many deviations of the end cog's ratio the chain drives there. */
const REACHED_WITHIN = 1.5;
/** The hardest braking is looked for in these seconds. */
const SLOWING_S = 5;

/**
 * Finds chains lost where the legs noticed at once and stopped: the chain drove, it was asked onto an end cog, within seconds nobody pedalled any
 * more, and the bike rolled to a halt of some length. The ratio alone says nothing there, since the chain may not have left the cog before.
 */
export function haltsAtEnd(log: RideLog, trace: RideTrace): DropCandidate[] {
  const { model, commands } = trace;
  if (!model) return [];
  const { wholeSeconds } = log.gearRecords;
  const found: DropCandidate[] = [];
  for (let c = 1; c < commands.timeS.length; c++) {
    const end = commands.cog[c] === 0 ? 'smallest' : commands.cog[c] === model.cogs - 1 ? 'largest' : null;
    const nextS = commands.timeS[c + 1] ?? Number.POSITIVE_INFINITY;
    if (!end || commands.cog[c] === commands.cog[c - 1] || sameBurst(nextS - commands.timeS[c], wholeSeconds)) continue;
    const start = firstAfter(log.timeS, commands.timeS[c] - 0.01);
    if (start >= log.timeS.length || !droveBefore(log, trace, start)) continue;
    const halt = haltAfter(log, start, HALT_WITHIN_S[end], HALT_LASTS_S);
    const last = halt.lastsS > 0 ? lastPedalled(log, start, halt) : null;
    if (last === null || nextS < log.timeS[last]) continue;
    const signs = haltSigns(log, trace, { cog: commands.cog[c], askedS: commands.timeS[c], start, last, halt });
    found.push({ pattern: `halt-at-${end}`, start, signs });
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
  readonly askedS: number;
  readonly start: number;
  readonly last: number;
  readonly halt: Halt;
}

function haltSigns(log: RideLog, trace: RideTrace, { cog, askedS, start, last, halt }: HaltAtEnd): MeasuredSign[] {
  const { spin, below, reached } = legsAfter(log, trace, { cog, start, last });
  return [
    endCogSign(log.timeS[start] - askedS),
    { sign: 'legs-stopped-after', value: log.timeS[last] - askedS },
    { sign: 'legs-faster', value: spin },
    { sign: 'past-gear', value: below },
    { sign: 'cog-reached', value: reached },
    { sign: 'halt-after', value: halt.inS },
    { sign: 'halt-lasts', value: halt.lastsS },
    { sign: 'braking', value: hardestBraking(log, start) },
  ];
}

/** From the shift to the second after the last turn: how much faster the legs ran than before, how far below the cog's lowest ratio, records on it. */
function legsAfter(
  log: RideLog,
  { model, logDevelopment, deviation }: RideTrace,
  { cog, start, last }: Pick<HaltAtEnd, 'cog' | 'start' | 'last'>,
): { spin: number; below: number; reached: number } {
  const levels = model?.logDevelopment.filter((_, gear) => gear % model.cogs === cog) ?? [];
  const lowest = Math.min(...levels);
  const before = log.cadenceRpm[start - 1];
  let [spin, below, reached] = [0, 0, 0];
  for (let i = start; i < log.timeS.length && log.timeS[i] <= log.timeS[last] + 1; i++) {
    if (!(log.cadenceRpm[i] > 0)) continue;
    below = Math.max(below, lowest - Math.log((log.speedMps[i] * 60) / log.cadenceRpm[i]));
    if (before > PEDALLING_RPM) spin = Math.max(spin, Math.log(log.cadenceRpm[i] / before));
    if (levels.some((level) => Math.abs(logDevelopment[i] - level) < REACHED_WITHIN * deviation[i])) reached++;
  }
  return { spin, below, reached };
}

/** Hardest loss of speed in the seconds after a record, m/s². */
function hardestBraking({ timeS, speedMps }: RideLog, start: number): number {
  let hardest = 0;
  for (let i = start + 1; i < timeS.length && timeS[i] - timeS[start] <= SLOWING_S; i++)
    hardest = Math.max(hardest, (speedMps[i - 1] - speedMps[i]) / Math.max(1, timeS[i] - timeS[i - 1]));
  return hardest;
}
