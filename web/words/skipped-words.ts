import { timesWords } from '../../src/numeric/times-words.ts';
import { showsBySkips } from '../../src/report/state/trouble-to-order-by.ts';
import type { BikeSummary } from '../api/answers.ts';

/** "skipped 23 times", to stand beside the rate of trouble of a bike on which wear is likeliest, since wear shows in no shift; null of any other. */
export const skippedWords = (state: Pick<BikeSummary['state'], 'topCause' | 'skips'>): string | null =>
  showsBySkips(state) ? `skipped ${timesWords(state.skips)}` : null;
