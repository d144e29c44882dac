import { counted } from './counted.ts';

/**
 * How often something happened, in words.
 *
 * @example timesWords(1) // 'once'
 * @example timesWords(2) // 'twice'
 * @example timesWords(12) // '12 times'
 */
export function timesWords(count: number): string {
  if (count === 1) return 'once';
  return count === 2 ? 'twice' : counted(count, 'time');
}
