import type { RideLog } from '../../ride-log/ride-log.ts';

/** Of every spell of standing cranks this much is kept at either end: sensors show a stop and a start late. */
const KEPT_AFTER_STOP_S = 1;
const KEPT_BEFORE_START_S = 1.5;
/** A longer gap between records is a pause of the recording; below this speed on both sides the bike stood. */
const PAUSE_S = 5;
const STOOD_MPS = 1.5;

/**
 * The ride's time with the spells cut out in which the cranks stood: a chain cannot move then, and a shift asked for while coasting is
 * answered when pedalling begins, be it half a minute later. Missing cadence is not standing.
 */
export interface StandingCut {
  /** Seconds since the ride's start that are left at `timeS`; within a spell that is cut, those left at its end. */
  left(timeS: number): number;
  /** The moment at which so many seconds are left; of a spell that is cut, its end. */
  moment(leftS: number): number;
}

/** Cuts a ride's spells of standing cranks out of its time. */
export function standingCut({ timeS, cadenceRpm, speedMps }: RideLog): StandingCut {
  const fromS: number[] = [];
  const toS: number[] = [];
  /** Seconds cut out before spell `k`; one more entry for all. */
  const cutBefore = [0];
  for (let i = 0; i < timeS.length; i++) {
    if (cadenceRpm[i] !== 0) continue;
    const start = i;
    while (i + 1 < timeS.length && cadenceRpm[i + 1] === 0 && !unknownBetween(i)) i++;
    const from = timeS[start] + KEPT_AFTER_STOP_S;
    const to = timeS[i] - KEPT_BEFORE_START_S;
    if (!(to > from)) continue;
    fromS.push(from);
    toS.push(to);
    cutBefore.push(cutBefore[cutBefore.length - 1] + to - from);
  }

  function unknownBetween(i: number): boolean {
    return timeS[i + 1] - timeS[i] > PAUSE_S && !(speedMps[i] < STOOD_MPS && speedMps[i + 1] < STOOD_MPS);
  }

  /** Number of spells that begin at or before a moment told by `begin`. */
  function begun(begin: (k: number) => number, value: number): number {
    let low = 0;
    let high = fromS.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (begin(middle) <= value) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  return {
    left(at) {
      const k = begun((i) => fromS[i], at);
      if (k > 0 && at < toS[k - 1]) return fromS[k - 1] - cutBefore[k - 1];
      return at - cutBefore[k];
    },
    moment(leftS) {
      return leftS + cutBefore[begun((i) => fromS[i] - cutBefore[i], leftS)];
    },
  };
}
