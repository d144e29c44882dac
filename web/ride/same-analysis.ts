import type { BikeDetail, KeyedRideReport, RideDetail } from '../api/answers.ts';
import { isOnlyTold, rideEvents } from './ride-event.ts';

/** What the page of a ride is drawn from, but for the columns, which come from the same analysis as the report. */
export interface DrawnFrom {
  readonly ride: RideDetail;
  readonly bike: BikeDetail | null;
}

/** What the rider's judgements change; events as they were found are compared apart. */
const judged: ReadonlySet<string> = new Set([
  'counts',
  'shifts',
  'ghostShifts',
  'chainDrops',
  'skips',
  'rejected',
  'found',
  'verdict',
  'fallen',
  'toldByRider',
  'side',
]);

/** A report without what only its rider tells of. */
const withoutTold = (report: KeyedRideReport): KeyedRideReport => ({
  ...report,
  chainDrops: report.chainDrops.filter((drop) => !isOnlyTold(drop)),
  skips: report.skips.filter((skip) => !isOnlyTold(skip)),
});

/** The ride, its analysis and its drivetrain as text, the judgements left out. */
function analysisText({ ride: { bikeId, report }, bike }: DrawnFrom): string {
  const found = report && withoutTold(report);
  const events = found && rideEvents(found).map(({ kind, ...event }) => [kind, event]);
  const drivetrain = bike && [bike.bike.chainrings, bike.bike.cassette];
  const unjudged = (key: string, value: unknown): unknown => (judged.has(key) ? undefined : value);
  return JSON.stringify([bikeId, drivetrain, report, events], unjudged);
}

/** Whether two answers show one analysis of a ride: they may differ in what the rider said of its events. */
export const sameAnalysis = (one: DrawnFrom, other: DrawnFrom): boolean => analysisText(one) === analysisText(other);
