import type { Report } from '../report-schema.ts';
import { verdictOf } from '../verdict-kind.ts';

/** As much of a report as tells whether its causes are of the past. */
type SpokenOf = Pick<Report, 'diagnosis' | 'adjustments'>;

/** Whether the causes say what was wrong once, and not what is wrong now: then nothing that is said of them may sound as if it were so still. */
export const wasOnce = (report: SpokenOf): boolean =>
  ['cured', 'overdone', 'put-right'].includes(verdictOf(report).kind);

/** Title of the list of causes; `otherwise` where they say what is wrong now. */
export const causesTitle = (report: SpokenOf, otherwise: string): string =>
  wasOnce(report) ? 'What it was at first, by all rides together' : otherwise;

/** Between which causes the verdict stands; null where they are of the past, since then nothing hangs on it. */
export const undecidedSentence = (report: SpokenOf): string | null =>
  wasOnce(report) ? null : (report.diagnosis.undecided?.sentence ?? null);

/** What speaks for the fault that an adjustment made, a sentence each; none where none went too far. */
export function nowEvidence({ diagnosis: { now, causes } }: Pick<Report, 'diagnosis'>): readonly string[] {
  if (now.setting !== 'overdone') return [];
  return causes.find(({ cause }) => cause === now.fault)?.evidence ?? [];
}
