import { sum } from 'd3-array';
import { hasClock } from '../ride-log/has-clock.ts';
import type { AdjustmentPeriod, PlacedRide } from './adjustment-periods.ts';
import type { TroubleCount } from './compare-rates.ts';

/** Judged shifts of one ride, as far as they lie in a period. `startMs`: of the ride, Unix milliseconds. */
export interface RideCount extends TroubleCount {
  readonly startMs: number;
}

/** A period's judged shifts ride by ride, in order of time; rides without any are left out. */
export function rideCountsOf(
  { shifts, shiftMs }: Pick<AdjustmentPeriod, 'shifts' | 'shiftMs'>,
  rides: readonly Pick<PlacedRide, 'startMs'>[],
): RideCount[] {
  const starts = rides
    .map(({ startMs }) => startMs)
    .filter(hasClock)
    .sort((a, b) => a - b);
  return starts
    .map((startMs, ride) => {
      const own = shifts.filter(
        (_, i) => shiftMs[i] >= startMs && shiftMs[i] < (starts[ride + 1] ?? Number.POSITIVE_INFINITY),
      );
      return { startMs, shifts: own.length, trouble: own.filter(({ outcome }) => outcome !== 'clean').length };
    })
    .filter(({ shifts: judged }) => judged > 0);
}

/** Several counts as one. */
export const together = (counts: readonly TroubleCount[]): TroubleCount => ({
  shifts: sum(counts, ({ shifts }) => shifts),
  trouble: sum(counts, ({ trouble }) => trouble),
});
