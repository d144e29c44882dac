import type { DiagnosisReport } from './diagnosis-report-schema.ts';

/** True where what was weighed holds neither a judged shift nor anything that went wrong: hardly anything for or against a part. */
export function showsNothing({ diagnosis }: { readonly diagnosis: Pick<DiagnosisReport, 'weighed'> }): boolean {
  const { judgedShifts, events } = diagnosis.weighed;
  return judgedShifts + events === 0;
}
