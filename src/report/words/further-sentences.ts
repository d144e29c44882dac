import type { DiagnosisReport } from '../diagnosis-report-schema.ts';
import { leavesAllAsItIs } from './nothing-to-do.ts';
import { turnWords } from './turn-words.ts';

/**
 * What a verdict has to say beyond the causes: how far to turn, the rider's part, what would tell more, what the data cannot tell. Nobody who is told to
 * leave everything as it is is pointed to a look.
 */
export function furtherSentences(diagnosis: DiagnosisReport): string[] {
  const { clicks, suggestion, riderPart, separates, notes } = diagnosis;
  return [
    clicks.parameter === suggestion.parameter ? turnWords(clicks) : null,
    riderPart.sentence,
    leavesAllAsItIs(diagnosis) ? null : separates?.sentence,
    ...notes,
  ].filter((sentence): sentence is string => Boolean(sentence));
}
