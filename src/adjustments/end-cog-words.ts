import { counted } from '../numeric/counted.ts';
import { figure } from '../numeric/figure.ts';
import { timesWords } from '../numeric/times-words.ts';
import type { CassetteEnd } from './end-cog-count.ts';
import { wentWrong } from './end-cog-count.ts';

/** As much of an end cog's comparison as is put into words: also one from a report. */
export interface ComparedEnd {
  readonly end: CassetteEnd;
  readonly before: Counted;
  readonly after: Counted;
}

interface Counted {
  readonly asked: number;
  readonly shifts: number;
  readonly trouble: number;
  readonly lost: number;
}

/** The end cog, as a rider says it. */
export const endWords: Readonly<Record<CassetteEnd, 'largest' | 'smallest'>> = {
  'past-largest': 'largest',
  'past-smallest': 'smallest',
};

const lostWords = ({ lost }: Counted): string => (lost > 0 ? ` (the chain was lost past it ${timesWords(lost)})` : '');

const wrongWords = (count: Counted): string => `${figure(wentWrong(count))} of ${figure(count.shifts)}`;

/** What was ridden onto the end cog since where that tells nothing: not asked for, none of it judged, or never reached. */
export function untriedWords({ asked, shifts }: Pick<Counted, 'asked' | 'shifts'>): string {
  if (asked === 0) return 'it was not asked for since';
  const why = shifts === 0 ? 'none of that could be judged' : 'the chain did not get there';
  return `it was asked for ${timesWords(asked)} since, but ${why}`;
}

/** "1 of 2 shifts onto the largest cog went wrong before (the chain was lost past it once), 0 of 38 since". */
export function endCogBeforeAndAfter({ end, before, after }: ComparedEnd): string {
  const onto = `onto the ${endWords[end]} cog`;
  const since = after.shifts === 0 ? `and ${untriedWords(after)}` : `${wrongWords(after)} since${lostWords(after)}`;
  if (before.shifts > 0)
    return `${figure(wentWrong(before))} of ${counted(before.shifts, 'shift')} ${onto} went wrong before${lostWords(before)}, ${since}`;
  if (after.shifts === 0) return `no shift ${onto} was judged before, and ${untriedWords(after)}`;
  return `no shift ${onto} was judged before, ${wrongWords(after)} went wrong since${lostWords(after)}`;
}
