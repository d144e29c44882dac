import { utcDay } from '../../numeric/moment-words.ts';
import type { Report } from '../report-schema.ts';
import { verdictOf } from '../verdict-kind.ts';
import { whichCauses } from '../which-causes.ts';
import { SINCE_ALONE } from './another-fault.ts';

/** As much of a report as tells whether its causes are of the past. */
type SpokenOf = Pick<Report, 'diagnosis' | 'adjustments'>;

/** Whether the causes say what was wrong once, and not what is wrong now: then nothing that is said of them may sound as if it were so still. */
export const wasOnce = (report: SpokenOf): boolean =>
  ['cured', 'overdone', 'another', 'put-right', 'not-shown'].includes(verdictOf(report).kind);

/** Title of the list of causes; `otherwise` where they say what is wrong now. */
export const causesTitle = (report: SpokenOf, otherwise: string): string =>
  wasOnce(report)
    ? `What it was at first, by ${report.diagnosis.firstUntil ? `the rides before ${utcDay(report.diagnosis.firstUntil)} alone` : 'all rides together'}`
    : otherwise;

/** Title of the list of causes of a fault that came after the first and was cured too. */
export const LATER_CURED = 'What it was after that, by no rides but those since the first was cured';

/** Title of the list of causes of what is wrong now, as `whichCauses` gives them; `otherwise` where all rides say it. */
export const titleOfCausesNow = (report: SpokenOf, otherwise: string): string =>
  whichCauses(report.diagnosis).sinceAlone ? SINCE_ALONE : causesTitle(report, otherwise);

/** Between which causes it is open what is wrong now; null where they are of the past, since then nothing hangs on it. */
export function undecidedSentence(report: SpokenOf): string | null {
  const { now, sinceAlone } = whichCauses(report.diagnosis);
  return sinceAlone || !wasOnce(report) ? (now.undecided?.sentence ?? null) : null;
}

/** What speaks for the fault that an adjustment made, or that came after one that was cured, a sentence each; none where there is none. */
export function nowEvidence({ diagnosis }: Pick<Report, 'diagnosis'>): readonly string[] {
  const { now, atFirst } = whichCauses(diagnosis);
  if (!atFirst) return [];
  return now.causes.find(({ cause }) => cause === diagnosis.now.fault)?.evidence ?? [];
}
