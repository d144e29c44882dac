import { listed } from '../../numeric/listed.ts';

/**
 * The cogs of a guess that nothing shows, in teeth: they were filled in to make a cassette.
 *
 * @param isShown told of each cog by its teeth and its place in the cassette
 * @example madeUpCogs([24, 28, 33, 39, 46], (teeth) => teeth < 30) // [33, 39, 46]
 */
export const madeUpCogs = (
  cassette: readonly number[],
  isShown: (teeth: number, cog: number) => boolean,
): readonly number[] => cassette.filter((teeth, cog) => !isShown(teeth, cog));

/** Says so of them, with a space before; empty where there are none. */
export function madeUpWords(madeUp: readonly number[]): string {
  if (madeUp.length === 0) return '';
  return ` No ride shows ${listed(madeUp)}: ${madeUp.length === 1 ? 'it is' : 'they are'} made up, to complete a cassette.`;
}
