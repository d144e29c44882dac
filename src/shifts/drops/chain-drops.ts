import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import type { ChainDropEvent } from '../ride-events.ts';
import { belowGears } from './below-gears.ts';
import { driveShown, drivesAgain } from './drive-shown.ts';
import { dropSide } from './drop-side.ts';
import { freeSpins } from './free-spins.ts';
import { haltAfter } from './halt-after.ts';
import { haltsAtEnd } from './halts-at-end.ts';
import { leapingCadence } from './leaping-cadence.ts';
import { type DropFinding, likeliestApart } from './likeliest-apart.ts';
import { type DropSearch, type LowRun, type RunSigns, runSigns } from './run-signs.ts';
import { SLOWEST_LAG_S } from './speed-gain.ts';

const STOP_WITHIN_S = 60;
const STOP_LASTS_S = 8;
const MIN_CONFIDENCE = 0.5;
const CREEPING_MPS = 2;
const STANDSTILL_MPS = 1.2;

/** Weights of the signs, in log odds (assumptions of ours; the sum decides, no single one can). */
const ODDS = {
  before: -9,
  spin: 25,
  mostSpin: 4,
  record: 1,
  mostRecords: 4,
  depth: 10,
  mostDepth: 3,
  powerGone: 5,
  powerThere: -20,
  stop: 2,
  noStop: -2,
  endOrRing: 2,
  creeping: -5,
  leaping: -3,
} as const;

/**
 * Finds where drive was lost. With the chain off, the cranks turn against nothing: cadence jumps up, the ratio falls below every
 * gear that was lately commanded (which neither freewheeling nor a missed shift can do), power is gone, and the rider
 * stops to put the chain back. Each sign adds its weight; power, where it is measured and still there, rules a drop out.
 */
export function chainDrops(log: RideLog, trace: RideTrace): ChainDropEvent[] {
  if (!trace.model) return [];
  const search: DropSearch = { log, trace, below: belowGears(log, trace) };
  const leaping = leapingCadence(log);
  const runs = lowRuns(search).flatMap((run): DropFinding[] => {
    const signs = runSigns(search, run);
    if (!signs || driveShown(search, run, signs)) return [];
    if (leaping && drivesBeforeHalt(search, run)) return [];
    return [{ start: run.start, logOdds: dropLogOdds(search, run, signs) + (leaping ? ODDS.leaping : 0) }];
  });
  const findings = [...runs, ...freeSpins(log, trace), ...haltsAtEnd(log, trace)];
  const likely = findings.filter(({ logOdds }) => probabilityOf(logOdds) >= MIN_CONFIDENCE);
  return likeliestApart(likely, log.timeS).map(({ start, logOdds }) => {
    const timeS = log.timeS[start];
    return { timeS, ...dropSide(log, trace, timeS), confidence: probabilityOf(logOdds) };
  });
}

const probabilityOf = (logOdds: number): number => 1 / (1 + Math.exp(-logOdds));

/** Whether the chain drives again before the rider stops: with the chain off only luck brings that about. */
function drivesBeforeHalt({ log, trace }: DropSearch, { start, end }: LowRun): boolean {
  const halt = haltAfter(log, Math.min(end, log.timeS.length - 1), STOP_WITHIN_S, STOP_LASTS_S);
  return drivesAgain(log, trace, { start, end }, Math.min(halt.inS, STOP_WITHIN_S));
}

/** The runs of records below every gear in question. */
function lowRuns({ log, below }: DropSearch): LowRun[] {
  const isBelow = (i: number): boolean => below.depth(i) > below.threshold(i);
  const runs: LowRun[] = [];
  for (let start = 1; start < log.timeS.length; start++) {
    if (!isBelow(start)) continue;
    let end = start;
    while (end < log.timeS.length && isBelow(end)) end++;
    runs.push({ start, end });
    start = end;
  }
  return runs;
}

/** Log odds that drive was lost in a run about which nothing shows that it was not. */
function dropLogOdds({ log, trace }: DropSearch, { start, end }: LowRun, signs: RunSigns): number {
  const { side } = dropSide(log, trace, log.timeS[start]);
  const recorded = trace.commands.timeS.length > 0;
  const halt = haltAfter(log, Math.min(end, log.timeS.length - 1), STOP_WITHIN_S, STOP_LASTS_S);
  return (
    ODDS.before +
    Math.min(ODDS.mostSpin, ODDS.spin * signs.spin) +
    Math.min(ODDS.mostRecords, ODDS.record * (end - start)) +
    Math.min(ODDS.mostDepth, ODDS.depth * signs.depth) +
    (Number.isNaN(signs.powerW) ? 0 : signs.powerGone ? ODDS.powerGone : ODDS.powerThere) +
    (halt.lastsS > 0 ? ODDS.stop : ODDS.noStop) +
    (creeping(log, start, end) && !signs.sure ? ODDS.creeping : 0) +
    (recorded && (side === 'past-largest' || side === 'past-smallest') ? ODDS.endOrRing : 0)
  );
}

/** A single reading at walking pace, or one just after setting off: there the sensors' own error and lag look like legs that spin in vain. */
function creeping(log: RideLog, start: number, end: number): boolean {
  if (end - start === 1 && log.speedMps[start] < CREEPING_MPS) return true;
  for (let i = start - 1; i >= 0 && log.timeS[start] - log.timeS[i] <= SLOWEST_LAG_S; i--)
    if (log.speedMps[i] < STANDSTILL_MPS) return true;
  return false;
}
