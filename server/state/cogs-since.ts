import { dated, partOfRide, type RiddenFor } from '../../src/adjustments/part-of-ride.ts';
import { tallyCogs } from '../../src/cogs/tally-cogs.ts';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { cogReport } from '../../src/report/cog-report.ts';
import { skipsByCog } from '../../src/report/cog-skips.ts';
import type { CogReport, CogSkips } from '../../src/report/report-schema.ts';
import type { RideReport } from '../../src/report/ride-report-schema.ts';
import type { RideEvents } from '../../src/shifts/ride-events.ts';

/**
 * The per-cog tallies of what counts for a bike as it is now, lost chains among them: what was seen from `sinceAt` on (ISO time). Null where
 * that is null: then all rides count. Rides without a date are neither before nor after.
 */
export function cogsSince(rides: readonly RiddenFor[], sinceAt: string | null, bike: Bike): CogReport[] | null {
  if (sinceAt === null) return null;
  const events = dated(rides).map((ride) => partSince(ride, sinceAt));
  return tallyCogs(events, bike.cassette.length).map((tally) => cogReport(tally, bike));
}

type Reported = RiddenFor & { readonly report: Pick<RideReport, 'counts' | 'evidence' | 'warnings'> };

/** The same of skips by cog. */
export function skipsByCogSince(rides: readonly Reported[], sinceAt: string | null, bike: Bike): CogSkips[] | null {
  if (sinceAt === null) return null;
  const since = dated(rides).map((ride) => ({ report: ride.report, events: partSince(ride, sinceAt) }));
  return skipsByCog(since, bike);
}

const partSince = (ride: RiddenFor, sinceAt: string): RideEvents =>
  partOfRide(ride, Date.parse(sinceAt), Number.POSITIVE_INFINITY);
