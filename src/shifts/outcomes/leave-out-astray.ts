import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { firstAfter } from '../first-after.ts';
import type { ShiftEvent } from '../ride-events.ts';
import { unjudged } from '../unjudged.ts';

/** So many misses in a row, each within this time of the one before, are looked at. */
const LEAST_MISSES = 3;
const APART_S = 40;
const BEFORE_S = 5;
const AFTER_S = 8;
/** Records further than this from every cog rest on none; no chain that stays on its cog leaves so many of them. */
const OFF_COGS_DEVIATIONS = 2;
const OFF_COGS_SHARE = 0.25;
const DRIVING_RPM = 40;

/** So many shifts in a row, in both directions, fail in no ride of which hardly any other does. Assumptions of ours. */
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
    if (
      comesAndGoes(pick(shifts, before), pick(shifts, row), pick(shifts, after)) ||
      restsOnNoCog(log, trace, pick(shifts, row))
    )
      for (const i of row) left.add(i);
    from = Math.max(to, from + 1);
  }
  if (left.size === 0) return [...shifts];
  return shifts.map((shift, i) => (left.has(i) ? { ...shift, ...unjudged('astray') } : shift));
}

const failed = ({ outcome }: ShiftEvent): boolean => outcome === 'missed' || outcome === 'overshot';

const pick = (shifts: readonly ShiftEvent[], indices: readonly number[]): ShiftEvent[] => indices.map((i) => shifts[i]);

function restsOnNoCog(log: RideLog, trace: RideTrace, row: readonly ShiftEvent[]): boolean {
  if (row.filter(({ outcome }) => outcome === 'missed').length < LEAST_MISSES) return false;
  const [fromS, toS] = [row[0].timeS - BEFORE_S, row[row.length - 1].timeS + AFTER_S];
  return shareOffCogs(log, trace, fromS, toS) >= OFF_COGS_SHARE;
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

/** Share of the driven records between two times whose ratio lies on no cog; 0 without such records. */
function shareOffCogs(
  log: RideLog,
  { model, logDevelopment, deviation }: RideTrace,
  fromS: number,
  toS: number,
): number {
  if (!model) return 0;
  let seen = 0;
  let off = 0;
  for (let i = firstAfter(log.timeS, fromS); i < log.timeS.length && log.timeS[i] <= toS; i++) {
    if (Number.isNaN(logDevelopment[i]) || !(log.cadenceRpm[i] > DRIVING_RPM)) continue;
    seen++;
    if (model.logDevelopment.every((level) => Math.abs(logDevelopment[i] - level) > OFF_COGS_DEVIATIONS * deviation[i]))
      off++;
  }
  return seen === 0 ? 0 : off / seen;
}
