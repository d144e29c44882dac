import type { DiagnosisReport } from '../diagnosis-report-schema.ts';

/** The part that the next step is about, by the name under which it is logged: what is turned, else what is looked at first; null where it is neither. */
export const stepIsAbout = ({
  parameter,
  looksFirst,
}: Pick<DiagnosisReport['suggestion'], 'parameter' | 'looksFirst'>): string | null =>
  parameter === 'none' ? (looksFirst ?? null) : parameter;
