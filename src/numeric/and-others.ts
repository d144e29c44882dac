import { counted } from './counted.ts';

/**
 * The first of some names, with how many others there are.
 *
 * @param most so many are named
 * @example andOthers(2, ['a', 'b', 'c']) // 'a, b and 1 other'
 */
export function andOthers(most: number, names: readonly string[]): string {
  const others = names.length - most;
  return names.slice(0, most).join(', ') + (others > 0 ? ` and ${counted(others, 'other')}` : '');
}
