import type { DiagnosisReport } from '../diagnosis-report-schema.ts';

/** What to do next, in order; in one where an older engine wrote no steps. */
export const stepList = ({ steps, action }: Pick<DiagnosisReport['suggestion'], 'steps' | 'action'>): string[] =>
  steps && steps.length > 0 ? steps : [action];
