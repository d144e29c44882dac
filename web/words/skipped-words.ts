import { timesWords } from '../../src/numeric/times-words.ts';
import type { BikeSummary } from '../api/answers.ts';

/** "skipped 23 times", to stand beside the rate of trouble of a bike on which wear is likeliest, since wear shows in no shift; null of any other. */
export const skippedWords = ({ topCause, skips }: Pick<BikeSummary['state'], 'topCause' | 'skips'>): string | null =>
  topCause === 'worn-drivetrain' && skips > 0 ? `skipped ${timesWords(skips)}` : null;
