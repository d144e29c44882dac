import type { RideLog } from '../../ride-log/ride-log.ts';
import { WORKING_W } from './rider-power.ts';

/** Slower than this the bike stands, or crawls. */
const STANDING_MPS = 1;

/** A halt after a record: how long until it, and how long it lasts at least; Infinity and 0 without one. */
export interface Halt {
  readonly inS: number;
  readonly lastsS: number;
}

/**
 * The first halt of `leastS` or longer that begins within `withinS` of a record: a recording pause after it counts as one, and so does the
 * ride's end. A pause that ended with the record itself is none: what the record shows came after it.
 */
export function haltAfter(log: RideLog, from: number, withinS: number, leastS: number): Halt {
  const { timeS, speedMps } = log;
  for (let i = from; i <= timeS.length; i++) {
    if (i === timeS.length) return { inS: timeS[i - 1] - timeS[from], lastsS: Number.POSITIVE_INFINITY };
    // a recording pause begins with the record before it: the one after may lie far beyond what is looked at
    if (i > from && timeS[i] - timeS[i - 1] > leastS && timeS[i - 1] - timeS[from] < withinS)
      return { inS: timeS[i - 1] - timeS[from], lastsS: timeS[i] - timeS[i - 1] };
    if (timeS[i] - timeS[from] >= withinS) break;
    if (!(speedMps[i] < STANDING_MPS)) continue;
    let k = i;
    while (k < timeS.length && speedMps[k] < STANDING_MPS) k++;
    const lastsS = k < timeS.length ? timeS[k] - timeS[i] : Number.POSITIVE_INFINITY;
    if (lastsS >= leastS && !crawls(log, i, k)) return { inS: timeS[i] - timeS[from], lastsS };
    i = k;
  }
  return { inS: Number.POSITIVE_INFINITY, lastsS: 0 };
}

/** Whether the rider works in most of the records between two, by the power meter: who crawls up a slope has not halted. */
function crawls({ powerW }: RideLog, from: number, to: number): boolean {
  return powerW.subarray(from, to).filter((watts) => watts > WORKING_W).length > (to - from) / 2;
}
