/**
 * Things in a sentence.
 *
 * @example listed([33, 39, 46]) // '33, 39 and 46'
 */
export const listed = (things: readonly (string | number)[]): string =>
  things.length < 2 ? things.join('') : `${things.slice(0, -1).join(', ')} and ${things[things.length - 1]}`;
