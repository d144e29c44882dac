import { causeWords } from '../../diagnosis/cause-words.ts';
import { percent } from '../../numeric/percent.ts';
import type { Report } from '../report-schema.ts';
import { isSound, namedAlone, namesNone, seemsCured } from './seems-cured.ts';

/** As much of a report as is counted here. */
interface Counted {
  readonly rides: readonly Pick<Report['rides'][number], 'counts'>[];
}

/** Judged shifts in all rides of a report. */
export function judgedShifts(report: Counted): number {
  return report.rides.reduce((sum, { counts }) => sum + counts.shifts - counts.unjudged, 0);
}

/** Causes under this probability are counted, not explained. */
const explainedFrom = 0.05;

/** True where the rides show nothing at all that speaks for or against a part. */
export function showsNothing(report: Counted): boolean {
  const found = report.rides.reduce(
    (sum, { counts }) => sum + counts.ghostShifts + counts.chainDrops + counts.skips,
    0,
  );
  return judgedShifts(report) + found === 0;
}

const nothingMore = 'Nothing beyond that speaks for or against it.';

/** The causes worth explaining, likeliest first, each with the evidence not said above it; none where the rides show nothing. */
export function explainedCauses(report: Report): Report['diagnosis']['causes'] {
  if (showsNothing(report)) return [];
  const said = new Set<string>();
  const unsaid = (sentence: string): boolean => !said.has(sentence) && said.add(sentence) !== undefined;
  return report.diagnosis.causes
    .filter(({ probability }, i) => i === 0 || probability >= explainedFrom)
    .map((verdict) => {
      const evidence = verdict.evidence.filter(unsaid);
      return { ...verdict, evidence: evidence.length > 0 ? evidence : [nothingMore] };
    });
}

/** The verdict in one sentence: the likeliest cause and how sure it is, or that it is open between the first two. */
export function verdictSentence(report: Report): string {
  const [first, second] = report.diagnosis.causes;
  const name = (cause: typeof first): string => causeWords(cause.cause, report.bike.actuation).name;
  if (showsNothing(report)) return 'No shift could be judged, so these rides say nothing for or against any part.';
  if (seemsCured(report))
    return `It was ${name(first)} (${percent(first.probability)}), and the last adjustment seems to have cured it.`;
  if (namesNone(report))
    return `No part is named yet: ${name(first)} comes first (${percent(first.probability)}), but the evidence is too thin.`;
  if (isSound(report.diagnosis)) return `Nothing points to a mis-set part (${percent(first.probability)} sure).`;
  if (first.probability >= namedAlone)
    return `Likeliest: ${name(first)} (${percent(first.probability)}); ${causeWords(first.cause, report.bike.actuation).meaning}.`;
  return `Open between ${name(first)} (${percent(first.probability)}) and ${name(second)} (${percent(second.probability)}).`;
}
