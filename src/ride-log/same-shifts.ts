import { pairs } from 'd3-array';
import type { RideLog } from './ride-log.ts';

/** Fewer changes of gear, or fewer different times between them, may be alike by chance. */
const LEAST_CHANGES = 20;
const LEAST_GAPS = 8;
/** Two recorders write a change down within so much of one another, s. */
const WRITTEN_WITHIN_S = 1.5;
/** This share of the changes must be the same: a recorder may lose some. */
const SAME_SHARE = 0.9;
/** One of the first so many changes of the shorter ride is sought in the longer. */
const SOUGHT = 5;
/** Of the first so many changes so few must be the same before all are looked at. */
const FIRST = { of: 12, atLeast: 7 };

interface Change {
  readonly timeS: number;
  readonly teeth: number;
  readonly position: number;
}

/**
 * By how many seconds of its own time since the start `part` must be put later for its changes of gear to be those of `whole`: two
 * recorders of one ride see the same shifts, whatever their clocks say. Null where they are not the same.
 */
export function sameShiftsOffsetS(part: RideLog, whole: RideLog): number | null {
  const [shorter, longer] = [changes(part), changes(whole)];
  if (shorter.length < LEAST_CHANGES || longer.length < LEAST_CHANGES) return null;
  if (new Set(pairs(shorter, (a, b) => Math.round(b.timeS - a.timeS))).size < LEAST_GAPS) return null;
  const first = shorter.slice(0, FIRST.of);
  for (const { timeS } of shorter.slice(0, SOUGHT))
    for (const other of longer) {
      const offsetS = other.timeS - timeS;
      if (sameAt(first, longer, offsetS) < FIRST.atLeast) continue;
      if (sameAt(shorter, longer, offsetS) >= SAME_SHARE * shorter.length) return offsetS;
    }
  return null;
}

/** The records that name another cog than the one before. */
function changes({ gearRecords: { timeS, rearTeeth, rearPosition } }: RideLog): Change[] {
  const named = [...timeS.keys()].filter((i) => rearTeeth[i] > 0 || rearPosition[i] > 0);
  return named
    .filter(
      (i, k) => k > 0 && (rearTeeth[i] !== rearTeeth[named[k - 1]] || rearPosition[i] !== rearPosition[named[k - 1]]),
    )
    .map((i) => ({ timeS: timeS[i], teeth: rearTeeth[i], position: rearPosition[i] }));
}

/** How many changes of `some` are among `all`, put later by an offset. Both in order of time. */
function sameAt(some: readonly Change[], all: readonly Change[], offsetS: number): number {
  let same = 0;
  let k = 0;
  for (const one of some) {
    while (k < all.length && all[k].timeS < one.timeS + offsetS - WRITTEN_WITHIN_S) k++;
    let next = k;
    while (next < all.length && all[next].timeS <= one.timeS + offsetS + WRITTEN_WITHIN_S && !alike(one, all[next]))
      next++;
    if (next < all.length && all[next].timeS <= one.timeS + offsetS + WRITTEN_WITHIN_S) same++;
  }
  return same;
}

const alike = (a: Change, b: Change): boolean =>
  a.teeth > 0 && b.teeth > 0 ? a.teeth === b.teeth : a.position > 0 && a.position === b.position;
