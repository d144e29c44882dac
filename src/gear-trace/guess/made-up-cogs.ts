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

/**
 * Says so of them, with a space before; empty where there are none.
 *
 * @param there cogs that recorded positions prove to be there, in teeth as written: of those only the teeth are made up
 */
export function madeUpWords(madeUp: readonly number[], there: readonly number[] = []): string {
  const proven = madeUp.filter((teeth) => there.includes(teeth));
  const filledIn = madeUp.filter((teeth) => !there.includes(teeth));
  return provenWords(proven) + filledInWords(filledIn);
}

function provenWords(cogs: readonly number[]): string {
  if (cogs.length === 0) return '';
  const [noun, are, their] = cogs.length === 1 ? ['cog', 'is', 'its'] : ['cogs', 'are', 'their'];
  return ` By the recorded positions the ${noun} written as ${listed(cogs)} ${are} there, but no ride shows ${their} teeth: count them.`;
}

function filledInWords(cogs: readonly number[]): string {
  if (cogs.length === 0) return '';
  return ` No ride shows ${listed(cogs)}: ${cogs.length === 1 ? 'it is' : 'they are'} made up, to complete a cassette.`;
}
