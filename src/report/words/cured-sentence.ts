import { isTogether } from '../../adjustments/made-together.ts';
import { causeWords } from '../../diagnosis/cause-words.ts';
import { curedBy, curingEntry } from '../../diagnosis/now/cured-by.ts';
import { hangsWhetherFault } from '../../diagnosis/what-leads.ts';
import { counted } from '../../numeric/counted.ts';
import { figure } from '../../numeric/figure.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { chance } from '../../numeric/percent.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import { wasOneCause } from '../verdict-kind.ts';
import { anotherNow } from './another-fault.ts';
import { showedSince } from './showed-since.ts';
import type { SpokenOf } from './spoken-of.ts';

/** What was wrong at first, with how likely: one cause, or those between which it stays open. */
export function whatItWas(report: SpokenOf): string {
  const { causes, undecided } = report.diagnosis;
  // what is wrong now made the list of all rides too, and is no part of what is gone
  const now = anotherNow(report.diagnosis).map(({ cause }) => cause);
  const faults = causes.filter(({ cause }) => cause !== 'no-fault' && !now.includes(cause));
  const between = wasOneCause(report)
    ? [causes[0]]
    : faults.filter(({ cause }, i) => (undecided ? undecided.between.includes(cause) : i < 2));
  return between
    .map(({ cause, probability }) => `${causeWords(cause, report.bike.actuation).name} (${chance(probability)})`)
    .join(' or ');
}

/** What is gone need not be one cause: where several fit alike it is said that it is open. Each of two faults that came one after the other has its own cure. */
export function curedSentence(report: SpokenOf): string {
  const { laterCured } = report.diagnosis;
  if (!laterCured) return curedAtOnce(report);
  const until = report.adjustments.filter(({ at }) => Date.parse(at) <= Date.parse(laterCured.after));
  const later = { ...report, diagnosis: { ...report.diagnosis, ...laterCured } };
  return `It was ${whatItWas(report)}, and ${cureOf({ ...report, adjustments: until })} it. After that it was ${whatItWas(later)}, and ${cureOf(later)} that.`;
}

/** "what was done on 2026-09-04 (cable tension +3 clicks) seems to have cured" */
const cureOf = ({ adjustments, diagnosis: { causes, undecided } }: SpokenOf): string =>
  `${curedBy(adjustments, [causes[0].cause, ...(undecided?.between ?? [])])} seems to have cured`;

function curedAtOnce(report: SpokenOf): string {
  const cured = cureOf(report);
  if (wasOneCause(report)) return `It was ${whatItWas(report)}, and ${cured} it.`;
  const { shifts, trouble } = showedSince(report.diagnosis.now).all;
  return `${upperFirst(cured)} what was wrong: ${sinceLastWork(report)} ${figure(trouble)} of ${counted(shifts, 'judged shift')} went wrong. ${mostLikely(report)}`;
}

/** What the counts of what holds now begin with: the last work done, by its day where the cure was earlier. */
function sinceLastWork({ adjustments, diagnosis: { causes, undecided, now } }: SpokenOf): string {
  const cure = curingEntry(adjustments, [causes[0].cause, ...(undecided?.between ?? [])]);
  const last = adjustments.findLast(({ at }) => at === now.since.at);
  return !cure || !last || isTogether(cure, last) ? 'since then' : `since ${utcDay(last.at)}`;
}

/** Which of several faults it was stays open; whether it was any at all does not once something was cured. */
const mostLikely = (report: SpokenOf): string =>
  hangsWhetherFault(report.diagnosis.undecided)
    ? `Most likely it was ${whatItWas(report)}.`
    : `What it was stays open: ${whatItWas(report)}.`;
