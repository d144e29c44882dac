import type { DiagnosisReport, RideReport } from './report-schema.ts';

/** Judged shifts in all rides of a report. */
export function judgedShifts(report: { readonly rides: readonly Pick<RideReport, 'counts'>[] }): number {
  return report.rides.reduce((sum, { counts }) => sum + counts.shifts - counts.unjudged, 0);
}

/** True where what was weighed holds neither a judged shift nor anything that went wrong: hardly anything for or against a part. */
export function showsNothing({ diagnosis }: { readonly diagnosis: Pick<DiagnosisReport, 'weighed'> }): boolean {
  const { judgedShifts, events } = diagnosis.weighed;
  return judgedShifts + events === 0;
}
