import { endWords } from '../../adjustments/end-cog-words.ts';
import { counted } from '../../numeric/counted.ts';
import { listed } from '../../numeric/listed.ts';
import type { Report } from '../report-schema.ts';
import type { SpokenOf } from './spoken-of.ts';

/** How often the cog that would tell was tried since its limit was seen to. A chain lost past it is a try too. */
export function triedWords({ trial, since: { chainDrops } }: Report['diagnosis']['now']): string {
  if (!trial) return '';
  const { end, since } = trial;
  const lost = end === 'past-largest' ? chainDrops.pastLargest : chainDrops.pastSmallest;
  if (lost > 0) return `: the chain was lost past the ${endWords[end]} cog ${counted(lost, 'time')} since`;
  return `: the ${endWords[end]} cog was tried ${since.shifts === 0 ? 'in no judged shift' : `in ${counted(since.shifts, 'judged shift')}`} since`;
}

/** What the rides since the last adjustment leave open. */
export function unsettledWords({ diagnosis: { now } }: SpokenOf): string {
  const { pastLargest, pastSmallest } = now.since.chainDrops;
  const ends = [pastLargest > 0 && 'largest', pastSmallest > 0 && 'smallest'].filter((end) => end !== false);
  return ends.length > 0
    ? `since the last adjustment the chain was lost past the ${listed(ends)} cog, so that limit is looked at first`
    : `the rides since the last adjustment do not tell yet whether it is cured${triedWords(now)}`;
}
