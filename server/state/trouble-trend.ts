import { wilsonInterval } from '../../src/numeric/wilson-interval.ts';
import type { RideReport } from '../../src/report/report-schema.ts';

/** One ride's part of the trend. `troubleRate` is null where no shift could be judged. */
export interface TrendPoint {
  readonly rideId: string;
  readonly at: string;
  readonly troubleRate: number | null;
  readonly low: number;
  readonly high: number;
  /** Judged shifts. */
  readonly shifts: number;
}

/** Share of judged shifts that were late, missed or overshot, ride by ride, the earliest first. */
export function troubleTrend(rides: readonly { id: string; report: RideReport }[]): TrendPoint[] {
  return rides
    .map(({ id, report: { start, counts } }) => {
      const trouble = counts.late + counts.missed + counts.overshot;
      const shifts = trouble + counts.clean;
      return {
        rideId: id,
        at: start,
        troubleRate: shifts > 0 ? trouble / shifts : null,
        ...wilsonInterval(trouble, shifts),
        shifts,
      };
    })
    .sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
}
