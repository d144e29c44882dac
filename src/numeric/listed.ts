/**
 * Things in a sentence.
 *
 * @example listed([33, 39, 46]) // '33, 39 and 46'
 */
export const listed = (things: readonly (string | number)[]): string =>
  things.length < 2 ? things.join('') : `${things.slice(0, -1).join(', ')} and ${things[things.length - 1]}`;

/**
 * The first things of a longer list in a sentence, with how many more there are.
 *
 * @param most so many are named
 * @example listedUpTo(2, ['a', 'b', 'c', 'd']) // 'a, b and 2 more'
 */
export const listedUpTo = (most: number, things: readonly string[]): string =>
  listed(things.length > most ? [...things.slice(0, most), `${things.length - most} more`] : things);
