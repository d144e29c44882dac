import { causeWords } from '../../diagnosis/cause-words.ts';
import { NAMED_ALONE } from '../../diagnosis/verdict-limits.ts';
import { listed } from '../../numeric/listed.ts';
import { chance } from '../../numeric/percent.ts';
import { timesWords } from '../../numeric/times-words.ts';
import type { Report } from '../report-schema.ts';

type Spoken = Pick<Report, 'bike' | 'diagnosis'>;
type Weighed = Report['diagnosis']['causes'][number];

/** Title of the list of causes that the rides since alone show. */
export const SINCE_ALONE = 'By the rides since the last adjustment alone';

/** The causes that the rides since alone leave in question, likeliest first; none where they name no other fault. */
export function anotherNow({ anotherSince }: Pick<Report, 'diagnosis'>['diagnosis']): readonly Weighed[] {
  if (!anotherSince) return [];
  const { causes, undecided } = anotherSince;
  if (undecided) return causes.filter(({ cause }) => undecided.between.includes(cause));
  return causes.slice(0, causes[0].probability >= NAMED_ALONE ? 1 : 2);
}

/** "the chain was lost past the largest cog 3 times"; empty where none was since the last adjustment. */
export function lostSince({ now }: Pick<Report, 'diagnosis'>['diagnosis']): string {
  const { pastLargest, pastSmallest } = now.since.chainDrops;
  const ends = [
    pastLargest > 0 && `past the largest cog ${timesWords(pastLargest)}`,
    pastSmallest > 0 && `past the smallest cog ${timesWords(pastSmallest)}`,
  ].filter((end) => end !== false);
  return ends.length > 0 ? `the chain was lost ${listed(ends)}` : '';
}

/**
 * What is wrong by now, and what was wrong at first.
 *
 * @param was what was wrong at first, as a sentence without its stop
 */
export function anotherSentence({ bike, diagnosis }: Spoken, was: string): string {
  const [first, second] = anotherNow(diagnosis).map(({ cause, probability }) => ({
    ...causeWords(cause, bike.actuation),
    share: chance(probability),
  }));
  const lost = lostSince(diagnosis);
  const now = second
    ? `open between ${first.name} (${first.share}) and ${second.name} (${second.share})`
    : `likeliest ${first.name} (${first.share}); ${first.meaning}`;
  return `${was}, mostly cured (still there: ${chance(diagnosis.stillThere)}). Since then${lost && ` ${lost}`}: ${now}.`;
}
