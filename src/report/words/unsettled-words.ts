import { endWords } from '../../adjustments/end-cog-words.ts';
import { betterSince } from '../../diagnosis/now/got-better.ts';
import { counted } from '../../numeric/counted.ts';
import { figure } from '../../numeric/figure.ts';
import { listed } from '../../numeric/listed.ts';
import { timesWords } from '../../numeric/times-words.ts';
import type { Report } from '../report-schema.ts';
import { showedSince } from './showed-since.ts';
import type { SpokenOf } from './spoken-of.ts';

/** How often the cog that would tell was tried since its limit was seen to. A chain lost past it is a try too. */
export function triedWords({ trial, since: { chainDrops } }: Report['diagnosis']['now']): string {
  if (!trial) return '';
  const { end, since } = trial;
  const lost = end === 'past-largest' ? chainDrops.pastLargest : chainDrops.pastSmallest;
  if (lost > 0) return `: the chain was lost past the ${endWords[end]} cog ${timesWords(lost)} since`;
  return `: the ${endWords[end]} cog was tried ${since.shifts === 0 ? 'in no judged shift' : `in ${counted(since.shifts, 'judged shift')}`} since`;
}

/** Where what was done last made it better for sure, and hardly anything went wrong since: by what, which is not to say that all of it is gone. Else null. */
export function betterSinceLast({
  adjustments,
  diagnosis: { now, causes },
}: Pick<SpokenOf, 'adjustments' | 'diagnosis'>): string | null {
  const { at } = now.since;
  if (!at || now.setting !== 'unsettled' || now.trial) return null;
  const showed = showedSince(now);
  const better = betterSince(adjustments, causes[0].cause, at, showed);
  if (!better) return null;
  const unusual = better.usualCure ? '' : ', though that is not the usual cure for it';
  return `it got better with ${better.words}${unusual}: since then ${figure(showed.all.trouble)} of ${counted(showed.all.shifts, 'judged shift')} went wrong. The rides do not tell yet whether it is cured`;
}

/** What the rides since the last adjustment leave open. */
export function unsettledWords({ adjustments, diagnosis }: Pick<SpokenOf, 'adjustments' | 'diagnosis'>): string {
  const { now } = diagnosis;
  const better = betterSinceLast({ adjustments, diagnosis });
  if (better) return better;
  const { pastLargest, pastSmallest } = now.since.chainDrops;
  const ends = [pastLargest > 0 && 'largest', pastSmallest > 0 && 'smallest'].filter((end) => end !== false);
  return ends.length > 0
    ? `since the last adjustment the chain was lost past the ${listed(ends)} cog, so that limit is looked at first`
    : `the rides since the last adjustment do not tell yet whether it is cured${triedWords(now)}`;
}
