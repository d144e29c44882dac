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

/**
 * Leaves shifts unjudged where the sensors went astray: a row of misses in which the ratio rests on no cog at all. A chain that truly
 * stays behind drives on some cog; a speed that is held or strays under trees does not.
 */
export function leaveOutAstray(log: RideLog, trace: RideTrace, shifts: readonly ShiftEvent[]): ShiftEvent[] {
  const judged = [...shifts.keys()].filter((i) => shifts[i].outcome !== 'unjudged');
  const left = new Set<number>();
  for (let from = 0; from < judged.length; ) {
    let to = from;
    while (
      to < judged.length &&
      shifts[judged[to]].outcome === 'missed' &&
      (to === from || shifts[judged[to]].timeS - shifts[judged[to - 1]].timeS < APART_S)
    )
      to++;
    const row = judged.slice(from, to);
    if (row.length >= LEAST_MISSES) {
      const offShare = shareOffCogs(
        log,
        trace,
        shifts[row[0]].timeS - BEFORE_S,
        shifts[row[row.length - 1]].timeS + AFTER_S,
      );
      if (offShare >= OFF_COGS_SHARE) for (const i of row) left.add(i);
    }
    from = Math.max(to, from + 1);
  }
  if (left.size === 0) return [...shifts];
  return shifts.map((shift, i) => (left.has(i) ? { ...shift, ...unjudged('astray') } : shift));
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
