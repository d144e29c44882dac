import { timesWords } from './times-words.ts';

/**
 * How often something happened of which not every time is sure, in words.
 *
 * @param all how often, sure or not
 * @param sure how many of those are sure
 * @example sureTimesWords(2, 2) // 'twice'
 * @example sureTimesWords(2, 1) // 'once and perhaps once more'
 * @example sureTimesWords(2, 0) // 'perhaps twice'
 */
export function sureTimesWords(all: number, sure: number): string {
  if (sure === all) return timesWords(all);
  return sure === 0 ? `perhaps ${timesWords(all)}` : `${timesWords(sure)} and perhaps ${timesWords(all - sure)} more`;
}
