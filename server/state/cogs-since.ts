import type { RiddenFor } from '../../src/adjustments/count-skips.ts';
import { tallyCogs } from '../../src/cogs/tally-cogs.ts';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { cogReport } from '../../src/report/cog-report.ts';
import { skipsByCog } from '../../src/report/cog-skips.ts';
import type { CogReport, CogSkips } from '../../src/report/report-schema.ts';
import type { RideReport } from '../../src/report/ride-report-schema.ts';
import { hasClock } from '../../src/ride-log/has-clock.ts';
import type { RideEvents } from '../../src/shifts/ride-events.ts';

/**
 * The per-cog tallies of what counts for a bike as it is now, lost chains among them: what was seen from `sinceAt` on (ISO time). Null where
 * that is null: then all rides count. Rides without a date are neither before nor after.
 */
export function cogsSince(rides: readonly RiddenFor[], sinceAt: string | null, bike: Bike): CogReport[] | null {
  if (sinceAt === null) return null;
  const events = dated(rides).map((ride) => eventsFrom(ride, Date.parse(sinceAt)));
  return tallyCogs(events, bike.cassette.length).map((tally) => cogReport(tally, bike));
}

type Reported = RiddenFor & { readonly report: Pick<RideReport, 'counts' | 'evidence' | 'warnings'> };

/** The same of skips by cog. */
export function skipsByCogSince(rides: readonly Reported[], sinceAt: string | null, bike: Bike): CogSkips[] | null {
  if (sinceAt === null) return null;
  const since = dated(rides).map((ride) => ({ report: ride.report, events: eventsFrom(ride, Date.parse(sinceAt)) }));
  return skipsByCog(since, bike);
}

const dated = <Ride extends RiddenFor>(rides: readonly Ride[]): Ride[] =>
  rides.filter(({ startMs }) => hasClock(startMs));

/** What happened in a ride from a moment on. Of a ride that is cut, as large a part was pedalled as was ridden. */
function eventsFrom({ startMs, durationS, events }: RiddenFor, fromMs: number): RideEvents {
  const fromS = (fromMs - startMs) / 1000;
  const isSince = ({ timeS }: { readonly timeS: number }): boolean => timeS >= fromS;
  const part = fromS <= 0 ? 1 : fromS < durationS ? (durationS - fromS) / durationS : 0;
  return {
    ...events,
    shifts: events.shifts.filter(isSince),
    ghostShifts: events.ghostShifts.filter(isSince),
    chainDrops: events.chainDrops.filter(isSince),
    skips: events.skips.filter(isSince),
    pedallingSByCog: events.pedallingSByCog.map((pedalledS) => pedalledS * part),
  };
}
