import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { firstAfter } from '../first-after.ts';
import { type StandingCut, standingCut } from './standing-cut.ts';

/**
 * Crank revolutions pedalled against time: shifts are timed by revolutions, since the chain climbs at the shift ramps as they come round.
 * Missing cadence counts as standing, and so do gaps over 5 s, but for those of a sparse recorder, with pedalling on both sides.
 */
export interface RevolutionClock {
  /** Revolutions pedalled from the ride's start until `timeS`. */
  at(timeS: number): number;
  /** The moment at which `revs` more than at `fromS` have been pedalled; Infinity where the ride ends before. */
  after(fromS: number, revs: number): number;
  /** The ride's time without the spells in which the cranks stood. */
  readonly standing: StandingCut;
}

/** A longer step between records is a pause, up to the second where the rider pedals before and after it. */
const GAP_S = 5;
const SPARSE_GAP_S = 15;

/** Counts the crank revolutions of a ride. */
export function revolutionClock(log: RideLog): RevolutionClock {
  const { timeS, cadenceRpm } = log;
  const total = new Float64Array(timeS.length);
  for (let i = 1; i < timeS.length; i++) total[i] = total[i - 1] + rate(i) * (timeS[i] - timeS[i - 1]);

  /** Revolutions a second over the interval that ends at record i. */
  function rate(i: number): number {
    if (i <= 0 || i >= timeS.length) return 0;
    const [a, b] = [cadenceRpm[i - 1], cadenceRpm[i]];
    const gapS = timeS[i] - timeS[i - 1];
    if (gapS > GAP_S && !(gapS <= SPARSE_GAP_S && a > PEDALLING_RPM && b > PEDALLING_RPM)) return 0;
    const mean = Number.isNaN(a) ? b : Number.isNaN(b) ? a : (a + b) / 2;
    return Number.isNaN(mean) ? 0 : mean / 60;
  }

  function at(t: number): number {
    const next = firstAfter(timeS, t);
    if (next === 0) return 0;
    if (next === timeS.length) return total[next - 1];
    return total[next - 1] + rate(next) * (t - timeS[next - 1]);
  }

  return {
    standing: standingCut(log),
    at,
    after(fromS, revs) {
      const goal = at(fromS) + revs;
      let i = firstAfter(timeS, fromS);
      while (i < timeS.length && total[i] < goal) i++;
      if (i >= timeS.length) return Number.POSITIVE_INFINITY;
      const pace = rate(i);
      return Math.max(fromS, pace > 0 ? timeS[i] - (total[i] - goal) / pace : timeS[i]);
    },
  };
}
