import { figure } from './figure.ts';

/**
 * A number with its noun; thousands are parted by commas.
 *
 * @example counted(1, 'record') // '1 record'
 * @example counted(2000, 'record') // '2,000 records'
 * @example counted(2, 'ride has', 'rides have') // '2 rides have'
 */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${figure(count)} ${count === 1 ? one : many}`;
