import type { DiagnosisReport } from '../diagnosis-report-schema.ts';

/** The part that the next step is about, by the name under which it is logged: what is turned, else what is looked at first; null where it is neither. */
export const stepIsAbout = ({
  parameter,
  looksFirst,
}: Pick<DiagnosisReport['suggestion'], 'parameter' | 'looksFirst'>): string | null =>
  parameter === 'none' ? (looksFirst ?? null) : parameter;

/** The part that the first of the step's sentences is about; null where it is no part. */
export function firstStepIsAbout(
  suggestion: Pick<DiagnosisReport['suggestion'], 'parameter' | 'looksFirst' | 'firstAbout'>,
): string | null {
  const about = suggestion.firstAbout ?? suggestion.looksFirst;
  return about === undefined ? stepIsAbout(suggestion) : about === 'none' ? null : about;
}
