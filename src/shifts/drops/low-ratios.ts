import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { firstWithin } from '../records-about.ts';
import { belowGears } from './below-gears.ts';
import { driveShown, drivesAgain } from './drive-shown.ts';
import type { DropCandidate, MeasuredSign } from './drop-candidate.ts';
import { dropSide } from './drop-side.ts';
import { endCogSign } from './end-cog-sign.ts';
import { type Halt, haltAfter } from './halt-after.ts';
import { leapingCadence } from './leaping-cadence.ts';
import { type DropSearch, type LowRun, type RunSigns, runSigns } from './run-signs.ts';
import { SLOWEST_LAG_S } from './speed-gain.ts';

/** A rider who lost the chain halts within so long, and for so long. */
const STOP_WITHIN_S = 30;
const STOP_LASTS_S = 8;
/** At walking pace one reading may be the sensors' error; slower than nobody rides they show a bike that comes to a stand. */
const CREEPING_MPS = 2;
const STANDSTILL_MPS = 1.2;
/** Legs that run this far ahead of the gear, log share, push against nothing; a last push before a stop is not so quick (assumption of ours). */
const RUNS_AWAY = 0.35;

/**
 * Finds the runs of records below every gear in question about which nothing shows that the chain still drove. Where the cadence leaps time
 * and again, those only after which no gear is driven before the halt.
 */
export function lowRatios(log: RideLog, trace: RideTrace): DropCandidate[] {
  if (!trace.model) return [];
  const search: DropSearch = { log, trace, below: belowGears(log, trace) };
  const leaping = leapingCadence(log);
  return lowRuns(search).flatMap((run): DropCandidate[] => {
    if (onlyStops(search, run)) return [];
    const seen = runSigns(search, run);
    if (!seen || driveShown(search, run, seen) !== null) return [];
    const halt = haltAfter(log, recordAfter(log, run), STOP_WITHIN_S, STOP_LASTS_S);
    if (leaping && drivesAgain(log, trace, run, Math.min(halt.inS, STOP_WITHIN_S))) return [];
    const signs = [...legSigns(run, seen), ...haltSigns(halt), ...otherSigns(search, run, seen)];
    if (leaping) signs.push({ sign: 'cadence-leaps', value: Number.NaN });
    return [{ pattern: 'low-ratio', start: run.start, signs }];
  });
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

/** From where a halt is looked for: the first record after a run, but its last where a recording pause lies between the two. */
function recordAfter({ timeS }: RideLog, { end }: LowRun): number {
  if (end === timeS.length || timeS[end] - timeS[end - 1] > STOP_LASTS_S) return end - 1;
  return end;
}

function legSigns({ start, end }: LowRun, seen: RunSigns): MeasuredSign[] {
  const signs: MeasuredSign[] = [
    { sign: seen.settingOff ? 'legs-set-off-faster' : 'legs-faster', value: seen.spin },
    { sign: 'legs-fast-for', value: seen.lastedS },
    { sign: 'records-below', value: end - start },
    { sign: 'past-gear', value: seen.depth },
  ];
  if (seen.powerGone) signs.push({ sign: 'power-gone', value: seen.powerW });
  if (seen.powerThere) signs.push({ sign: 'power-there', value: seen.powerW });
  return signs;
}

const haltSigns = ({ inS, lastsS }: Halt): MeasuredSign[] =>
  lastsS > 0
    ? [
        { sign: 'halt-after', value: inS },
        { sign: 'halt-lasts', value: lastsS },
      ]
    : [{ sign: 'no-halt', value: STOP_WITHIN_S }];

function otherSigns({ log, trace }: DropSearch, { start, end }: LowRun, seen: RunSigns): MeasuredSign[] {
  const signs: MeasuredSign[] = [];
  if (creeping(log, start, end) && !seen.sure) signs.push({ sign: 'creeping', value: log.speedMps[start] });
  const { side, sinceShiftS } = dropSide(log, trace, log.timeS[start]);
  if (trace.commands.timeS.length > 0 && (side === 'past-largest' || side === 'past-smallest'))
    signs.push(endCogSign(sinceShiftS));
  return signs;
}

/**
 * Whether a run is nothing but a bike that comes to a stand: one reading slower than anybody rides, of legs that do not run far ahead of the
 * fastest speed about. Every stop at a crawl on the largest cog looks like that: the last turn of the legs is shown later than the speed
 * that falls away, and the power is gone since the rider let go.
 */
const onlyStops = ({ log, below }: DropSearch, { start, end }: LowRun): boolean =>
  end - start === 1 && log.speedMps[start] < STANDSTILL_MPS && !(below.sureDepth(start) > RUNS_AWAY);

/** A single reading at walking pace, or one just after setting off: there the sensors' own error and lag look like legs that spin in vain. */
function creeping(log: RideLog, start: number, end: number): boolean {
  if (end - start === 1 && log.speedMps[start] < CREEPING_MPS) return true;
  const justBefore = log.speedMps.subarray(firstWithin(log.timeS, start, SLOWEST_LAG_S), start);
  return justBefore.some((speed) => speed < STANDSTILL_MPS);
}
