import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { endWithin } from '../records-about.ts';
import type { EndCog, HaltCount, PromptHalts } from '../ride-events.ts';
import { type AskedShift, askedShifts, type HaltAtOnce } from './asked-shifts.ts';
import type { DropCandidate, MeasuredSign } from './drop-candidate.ts';
import { endCogSign } from './end-cog-sign.ts';
import { haltOdds } from './halt-odds.ts';
import { turnedInVainS } from './turned-in-vain.ts';
import { weighSigns } from './weigh-candidate.ts';

/** Within so many deviations of the end cog's ratio, and nearer to it than to that of the cog beside it, the chain drives there. */
const REACHED_WITHIN = 1.5;
/** A record on the cog stands for the time since the one before, up to so many seconds. */
const STANDS_FOR_S = 5;
/** The hardest braking is looked for in these seconds. */
const SLOWING_S = 5;

/**
 * Finds chains lost where the legs noticed at once and stopped: the chain drove, it was asked onto an end cog, within seconds nobody pedalled any
 * more, and the bike rolled to a halt of some length. The ratio alone says nothing there, since the chain may not have left the cog before; how
 * often such halts follow on this cog and on others says much.
 */
export function haltsAtEnd(log: RideLog, trace: RideTrace): DropCandidate[] {
  if (!trace.model) return [];
  const asked = askedShifts(log, trace);
  return endCogs.flatMap((end) => {
    const { onto, elsewhere } = shiftsTowards(asked, trace, end);
    const here = countHalts(onto);
    const odds = haltOdds(end, here, countHalts(elsewhere));
    return onto.flatMap(({ halted, ...shift }): DropCandidate[] => {
      if (!halted) return [];
      const signs = [
        { sign: 'halts-so-often', value: odds } as const,
        { sign: 'halts-on-cog', value: here.halts } as const,
        { sign: 'shifts-onto-cog', value: here.shifts } as const,
        ...haltSigns(log, trace, { ...shift, halt: halted }),
      ];
      return [{ pattern: `halt-at-${end}`, start: shift.start, signs }];
    });
  });
}

/** The shifts after which a halt could have followed at once, and what the halts show beside how often they follow. */
export function promptHalts(log: RideLog, trace: RideTrace): PromptHalts {
  const asked = askedShifts(log, trace);
  const ontoEnd = endCogs.flatMap((end) =>
    shiftsTowards(asked, trace, end).onto.map(({ halted, ...shift }) => {
      const signs = halted ? weighSigns(`halt-at-${end}`, haltSigns(log, trace, { ...shift, halt: halted })) : null;
      return { timeS: shift.askedS, end, haltLogOdds: signs?.reduce((sum, { logOdds }) => sum + logOdds, 0) ?? null };
    }),
  );
  const elsewhere = (end: EndCog): HaltCount => countHalts(shiftsTowards(asked, trace, end).elsewhere);
  return { ontoEnd, elsewhere: { largest: elsewhere('largest'), smallest: elsewhere('smallest') } };
}

const endCogs = ['largest', 'smallest'] as const satisfies readonly EndCog[];

/** The shifts in the direction of an end cog of a traced ride: onto it, and onto others. */
function shiftsTowards(
  asked: readonly AskedShift[],
  { model }: RideTrace,
  end: EndCog,
): { onto: readonly AskedShift[]; elsewhere: readonly AskedShift[] } {
  const endCog = end === 'largest' ? (model?.cogs ?? 0) - 1 : 0;
  const towards = asked.filter(({ toLarger }) => toLarger === (end === 'largest'));
  return {
    onto: towards.filter(({ cog }) => cog === endCog),
    elsewhere: towards.filter(({ cog }) => cog !== endCog),
  };
}

const countHalts = (shifts: readonly AskedShift[]): HaltCount => ({
  shifts: shifts.length,
  halts: shifts.filter(({ halted }) => halted).length,
});

interface HaltAtEnd {
  readonly cog: number;
  readonly largest: number;
  readonly askedS: number;
  readonly start: number;
  readonly halt: HaltAtOnce;
}

function haltSigns(log: RideLog, trace: RideTrace, { cog, largest, askedS, start, halt }: HaltAtEnd): MeasuredSign[] {
  const { spin, below, reached } = legsAfter(log, trace, { cog, start, halt });
  return [
    endCogSign(log.timeS[start] - askedS),
    { sign: 'legs-stopped-after', value: log.timeS[halt.lastTurn] - askedS },
    { sign: 'turned-in-vain', value: turnedInVainS(log, trace, { largest, start, end: halt.lastTurn + 1 }) },
    { sign: 'legs-faster', value: spin },
    { sign: 'past-gear', value: below },
    { sign: 'cog-reached', value: reached },
    { sign: 'halt-after', value: halt.inS },
    { sign: 'halt-lasts', value: halt.lastsS },
    { sign: 'braking', value: hardestBraking(log, start) },
  ];
}

/** From the shift to the second after the last turn: how much faster the legs ran than before, how far below the cog's lowest ratio, seconds on it. */
function legsAfter(
  log: RideLog,
  { model, logDevelopment, deviation, samples }: RideTrace,
  { cog, start, halt: { lastTurn } }: Pick<HaltAtEnd, 'cog' | 'start' | 'halt'>,
): { spin: number; below: number; reached: number } {
  const levelsOf = (on: number): Float64Array =>
    model?.logDevelopment.filter((_, gear) => gear % model.cogs === on) ?? new Float64Array();
  const levels = levelsOf(cog);
  const lowest = Math.min(...levels);
  const halfStep = Math.abs(levels[0] - levelsOf(cog === 0 ? 1 : cog - 1)[0]) / 2;
  const before = log.cadenceRpm[start - 1];
  let [spin, below, reached] = [0, 0, 0];
  for (let i = start; i < log.timeS.length && log.timeS[i] <= log.timeS[lastTurn] + 1; i++) {
    if (!(log.cadenceRpm[i] > 0)) continue;
    below = Math.max(below, lowest - Math.log((log.speedMps[i] * 60) / log.cadenceRpm[i]));
    if (before > PEDALLING_RPM) spin = Math.max(spin, Math.log(log.cadenceRpm[i] / before));
    const within = Math.min(REACHED_WITHIN * deviation[i], halfStep);
    if (i > start && levels.some((level) => Math.abs(logDevelopment[i] - level) < within))
      reached += Math.min(STANDS_FOR_S, samples.dtS[i]);
  }
  return { spin, below, reached };
}

/** Hardest loss of speed in the seconds after a record, m/s². */
function hardestBraking({ timeS, speedMps }: RideLog, start: number): number {
  const until = endWithin(timeS, start, SLOWING_S);
  let hardest = 0;
  for (let i = start + 1; i < until; i++)
    hardest = Math.max(hardest, (speedMps[i - 1] - speedMps[i]) / Math.max(1, timeS[i] - timeS[i - 1]));
  return hardest;
}
