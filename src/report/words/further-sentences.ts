import type { DiagnosisReport } from '../diagnosis-report-schema.ts';
import { turnWords } from './turn-words.ts';

/** What a verdict has to say beyond the causes: how far to turn, the rider's part, what would tell more, what the data cannot tell. */
export function furtherSentences({ clicks, suggestion, riderPart, separates, notes }: DiagnosisReport): string[] {
  return [
    clicks.parameter === suggestion.parameter ? turnWords(clicks) : null,
    riderPart.sentence,
    separates?.sentence,
    ...notes,
  ].filter((sentence): sentence is string => Boolean(sentence));
}
