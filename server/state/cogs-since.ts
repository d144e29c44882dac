import type { PlacedRide } from '../../src/adjustments/adjustment-periods.ts';
import { tallyCogs } from '../../src/cogs/tally-cogs.ts';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { cogReport } from '../../src/report/cog-report.ts';
import type { CogReport } from '../../src/report/report-schema.ts';
import { hasClock } from '../../src/ride-log/has-clock.ts';
import type { RideEvents } from '../../src/shifts/ride-events.ts';

/**
 * The per-cog tallies of what counts for a bike as it is now, lost chains among them: what was seen from `sinceAt` on (ISO time). Null where
 * that is null: then all rides count. Rides without a date are neither before nor after.
 */
export function cogsSince(rides: readonly PlacedRide[], sinceAt: string | null, bike: Bike): CogReport[] | null {
  if (sinceAt === null) return null;
  const events = rides.filter(({ startMs }) => hasClock(startMs)).map((ride) => eventsFrom(ride, Date.parse(sinceAt)));
  return tallyCogs(events, bike.cassette.length).map((tally) => cogReport(tally, bike));
}

/** What happened in a ride from a moment on. */
function eventsFrom({ startMs, events }: PlacedRide, fromMs: number): RideEvents {
  const isSince = ({ timeS }: { readonly timeS: number }): boolean => startMs + timeS * 1000 >= fromMs;
  return {
    ...events,
    shifts: events.shifts.filter(isSince),
    ghostShifts: events.ghostShifts.filter(isSince),
    chainDrops: events.chainDrops.filter(isSince),
  };
}
