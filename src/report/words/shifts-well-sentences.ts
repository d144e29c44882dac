import { gotBetterWith, rightWayBefore } from '../../diagnosis/now/got-better.ts';
import { notRiddenSentence } from '../../diagnosis/now/not-ridden-on.ts';
import { notShownWords } from '../../diagnosis/now/not-shown-words.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { SpokenOf } from './spoken-of.ts';

/** What is logged is not doubted for its size: how far an adjuster reaches differs from bike to bike. */
export function putRightSentence(report: SpokenOf, before: string): string {
  const entryAt = report.diagnosis.shiftsWellSince?.entryAt;
  const since = entryAt ? `what was logged on ${utcDay(entryAt)}` : 'then';
  return `Since ${since} the bike shifts well; before it, ${before}.${notRidden(report)}`;
}

/** What was done after the rides by which the verdict goes leaves it as it is. */
const notRidden = ({ adjustments, diagnosis: { shiftsWellSince } }: SpokenOf): string =>
  shiftsWellSince ? notRiddenSentence(adjustments, shiftsWellSince.at) : '';

/** Without an entry that accounts for it nobody knows whether the fault is gone; what made it better for sure is named all the same. */
export const notShownSentence = (report: SpokenOf, before: string): string =>
  notShown(report, before) + notRidden(report);

function notShown({ adjustments, diagnosis }: SpokenOf, before: string): string {
  const { shiftsWellSince: since, causes } = diagnosis;
  if (!since) return '';
  const shown = upperFirst(notShownWords(since));
  const better = gotBetterWith(adjustments, causes[0].cause, since.at);
  if (!better) return `${shown}, and nothing that is logged accounts for that; before it, ${before}.`;
  if (rightWayBefore(adjustments, causes[0].cause, since))
    return `${shown}. It got better with ${better.words}, which was the right way; before it, ${before}.`;
  if (!since.adjusted || !better.last)
    return `${shown}; before it, ${before}. It got better with ${better.words}, but shifts still went wrong after that, and nothing logged since accounts for the rest.`;
  return `${shown}. It got better with ${better.words}${better.usualCure ? ';' : ', though that is not the usual cure:'} before it, ${before}.`;
}
