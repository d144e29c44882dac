import { sum } from 'd3-array';
import type { PlacedRide } from '../../adjustments/adjustment-periods.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { Report } from '../report-schema.ts';
import { ridesThatCount } from '../rides-that-count.ts';

/**
 * How often the chain skipped within what a bike's rate of trouble counts: wear shows there, and not in how shifts go.
 *
 * @param rides those that count for the bike
 * @param sinceAt ISO time from which on skips count; null: over all rides
 */
export function skipsSince(
  report: Pick<Report, 'rides'>,
  rides: readonly PlacedRide[],
  sinceAt: string | null,
): number {
  if (sinceAt === null) return sum(ridesThatCount(report), ({ counts }) => counts.skips);
  const fromMs = Date.parse(sinceAt);
  return rides
    .filter(({ startMs }) => hasClock(startMs))
    .flatMap(({ startMs, events }) => events.skips.filter(({ timeS }) => startMs + timeS * 1000 >= fromMs)).length;
}
