import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { firstAfter } from '../first-after.ts';
import type { ShiftEvent } from '../ride-events.ts';
import { unjudged } from '../unjudged.ts';

/** So many misses in a row, each within this time of the one before, are looked at. */
const LEAST_MISSES = 3;
const APART_S = 40;
/** The ratio is looked at from so long before the first shift of a row to so long after the last. */
const BEFORE_S = 5;
const AFTER_S = 8;
/** Records further than this from every cog rest on none; no chain that stays on its cog leaves so many of them. */
const OFF_COGS_DEVIATIONS = 2;
const OFF_COGS_SHARE = 0.25;
/** At a slower cadence the legs may not drive. */
const DRIVING_RPM = 40;

/** So many shifts in a row, in both directions, fail in no ride of which hardly any of enough others does. Assumptions of ours. */
const LEAST_BOTH_WAYS = 4;
const HARDLY_ANY = 0.05;
const ENOUGH_OTHERS = 20;
/** So many shifts after the row show that it went again: what broke stays broken. */
const ENOUGH_AFTER = 3;

/**
 * Leaves shifts unjudged where the sensors went astray: a row of misses in which the ratio rests on no cog at all, or a row of failed shifts
 * in both directions within a ride in which hardly any other fails. A chain that truly stays behind drives on some cog, and what keeps it
 * from going either way does not come and go within a minute; a speed that is held or strays under trees does.
 */
export function leaveOutAstray(log: RideLog, trace: RideTrace, shifts: readonly ShiftEvent[]): ShiftEvent[] {
  const judged = [...shifts.keys()].filter((i) => shifts[i].outcome !== 'unjudged');
  const left = new Set<number>();
  for (let from = 0; from < judged.length; ) {
    let to = from;
    while (
      to < judged.length &&
      failed(shifts[judged[to]]) &&
      (to === from || shifts[judged[to]].timeS - shifts[judged[to - 1]].timeS < APART_S)
    )
      to++;
    const row = judged.slice(from, to);
    const before = judged.slice(0, from);
    const after = judged.slice(Math.max(to, from + 1));
    const leavesOut = comesAndGoes(pick(shifts, before), pick(shifts, row), pick(shifts, after))
      ? row
      : restingOnNoCog(log, trace, pick(shifts, row)).map((i) => row[i]);
    for (const i of leavesOut) left.add(i);
    from = Math.max(to, from + 1);
  }
  if (left.size === 0) return [...shifts];
  return shifts.map((shift, i) => (left.has(i) ? { ...shift, ...unjudged('astray') } : shift));
}

const failed = ({ outcome }: ShiftEvent): boolean => outcome === 'missed' || outcome === 'overshot';

const pick = (shifts: readonly ShiftEvent[], indices: readonly number[]): ShiftEvent[] => indices.map((i) => shifts[i]);

/**
 * The shifts of a row over which the ratio rests on no cog, by their place in the row: the longest rows within it of which that holds. A
 * doubtful miss at the row's end, on a cog again, would else hide what stands before it.
 */
function restingOnNoCog(log: RideLog, trace: RideTrace, row: readonly ShiftEvent[]): number[] {
  if (row.length < LEAST_MISSES) return [];
  const shareOff = shareOffCogs(log, trace, row[0].timeS - BEFORE_S, row[row.length - 1].timeS + AFTER_S);
  const missesBefore = [0];
  for (const { outcome } of row)
    missesBefore.push(missesBefore[missesBefore.length - 1] + Number(outcome === 'missed'));
  const holds = (from: number, to: number): boolean =>
    missesBefore[to] - missesBefore[from] >= LEAST_MISSES &&
    shareOff(row[from].timeS - BEFORE_S, row[to - 1].timeS + AFTER_S) >= OFF_COGS_SHARE;
  const resting = new Set<number>();
  for (let length = row.length; length >= LEAST_MISSES; length--)
    for (let from = 0; from + length <= row.length; from++)
      if (!resting.has(from) && !resting.has(from + length - 1) && holds(from, from + length))
        for (let i = from; i < from + length; i++) resting.add(i);
  return [...resting];
}

/** Whether all of a row fail, whichever way they go, and hardly any of the ride's others, some of which come after it. */
function comesAndGoes(
  before: readonly ShiftEvent[],
  row: readonly ShiftEvent[],
  after: readonly ShiftEvent[],
): boolean {
  const others = [...before, ...after];
  if (
    after.length < ENOUGH_AFTER ||
    row.length < LEAST_BOTH_WAYS ||
    new Set(row.map(({ direction }) => direction)).size < 2
  )
    return false;
  return others.length >= ENOUGH_OTHERS && others.filter(failed).length < HARDLY_ANY * others.length;
}

/**
 * Share of the driven records between any two times of a stretch whose ratio lies on no cog; 0 without such records. Counted once for the
 * stretch, so that its parts cost little.
 */
function shareOffCogs(
  log: RideLog,
  { model, logDevelopment, deviation }: RideTrace,
  startS: number,
  endS: number,
): (fromS: number, toS: number) => number {
  if (!model) return () => 0;
  const start = firstAfter(log.timeS, startS);
  const seen = [0];
  const off = [0];
  for (let i = start; i < log.timeS.length && log.timeS[i] <= endS; i++) {
    const driven = !Number.isNaN(logDevelopment[i]) && log.cadenceRpm[i] > DRIVING_RPM;
    const onNone = model.logDevelopment.every(
      (level) => Math.abs(logDevelopment[i] - level) > OFF_COGS_DEVIATIONS * deviation[i],
    );
    seen.push(seen[i - start] + Number(driven));
    off.push(off[i - start] + Number(driven && onNone));
  }
  return (fromS, toS) => {
    const [from, to] = [firstAfter(log.timeS, fromS) - start, firstAfter(log.timeS, toS) - start];
    const driven = seen[to] - seen[from];
    return driven === 0 ? 0 : (off[to] - off[from]) / driven;
  };
}
