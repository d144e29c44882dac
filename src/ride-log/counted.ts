/**
 * A number with its noun.
 *
 * @example counted(1, 'record') // '1 record'
 * @example counted(2000, 'record') // '2,000 records'
 */
export const counted = (count: number, noun: string): string =>
  `${count.toLocaleString('en')} ${noun}${count === 1 ? '' : 's'}`;
