import type { RideReport } from './report-schema.ts';

/** As much of a report as is counted here. */
interface Counted {
  readonly rides: readonly Pick<RideReport, 'counts'>[];
}

/** Judged shifts in all rides of a report. */
export function judgedShifts(report: Counted): number {
  return report.rides.reduce((sum, { counts }) => sum + counts.shifts - counts.unjudged, 0);
}

/** True where the rides show nothing at all that speaks for or against a part. */
export function showsNothing(report: Counted): boolean {
  const found = report.rides.reduce(
    (sum, { counts }) => sum + counts.ghostShifts + counts.chainDrops + counts.skips,
    0,
  );
  return judgedShifts(report) + found === 0;
}
