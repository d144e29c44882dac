import { notShownWords } from '../../diagnosis/now/not-shown-words.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { SpokenOf } from './spoken-of.ts';

/** What is logged is not doubted for its size: how far an adjuster reaches differs from bike to bike. */
export const putRightSentence = ({ diagnosis: { shiftsWellSince } }: SpokenOf, before: string): string =>
  `Since what was logged on ${shiftsWellSince?.entryAt?.slice(0, 10)} the bike shifts well; before it, ${before}.`;

/** Without an entry that accounts for it nobody knows whether the fault is gone. */
export const notShownSentence = ({ diagnosis: { shiftsWellSince: since } }: SpokenOf, before: string): string =>
  since
    ? `${upperFirst(notShownWords(since))}, and nothing that is logged accounts for that; before it, ${before}.`
    : '';
