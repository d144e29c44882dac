import type { DiagnosisReport } from './diagnosis-report-schema.ts';

/** True where no judged shift was weighed: then no shift tells where the guide pulley stands. */
export const weighsNoShift = ({ diagnosis }: { readonly diagnosis: Pick<DiagnosisReport, 'weighed'> }): boolean =>
  diagnosis.weighed.judgedShifts === 0;

/** True where what was weighed holds neither a judged shift nor anything that went wrong: hardly anything for or against a part. */
export function showsNothing({ diagnosis }: { readonly diagnosis: Pick<DiagnosisReport, 'weighed'> }): boolean {
  const { judgedShifts, events } = diagnosis.weighed;
  return judgedShifts + events === 0;
}
