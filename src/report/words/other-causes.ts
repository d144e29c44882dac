import { causeWords } from '../../diagnosis/cause-words.ts';
import { percent } from '../../numeric/percent.ts';
import type { Report } from '../report-schema.ts';
import { showsNothing } from '../shows-nothing.ts';

/** The causes that are not explained, with their probabilities, in a sentence; null without any, and where no ride was weighed. */
export function otherCauses(report: Report, explained: number): string | null {
  const { causes, weighed } = report.diagnosis;
  const rest = causes.slice(explained);
  if (rest.length === 0 || weighed.rides === 0 || report.diagnosis.heldBack) return null;
  const listed = rest.map(
    ({ cause, probability }) => `${causeWords(cause, report.bike.actuation).name} (${percent(probability)})`,
  );
  const said = showsNothing(report)
    ? 'How likely each is, mostly by what is taken for granted before any ride'
    : 'Less likely';
  return `${said}: ${listed.join(', ')}.`;
}
