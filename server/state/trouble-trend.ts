import type { RideReport } from '../../src/report/ride-report-schema.ts';
import { type RideTrouble, rideTrouble } from '../../src/report/ride-trouble.ts';

/** One ride's part of the trend. */
export interface TrendPoint extends RideTrouble {
  readonly rideId: string;
  readonly at: string;
}

/** The trouble ride by ride, the earliest first. */
export function troubleTrend(
  rides: readonly { readonly id: string; readonly report: Pick<RideReport, 'start' | 'counts'> }[],
): TrendPoint[] {
  return rides
    .map(({ id, report: { start, counts } }) => ({ rideId: id, at: start, ...rideTrouble(counts) }))
    .sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
}
