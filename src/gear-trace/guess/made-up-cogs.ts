import { listed } from '../../numeric/listed.ts';

/**
 * In words, which cogs of a guess nothing shows: they were filled in to make a cassette. Empty where every one is shown.
 *
 * @param isShown told of each cog by its teeth and its place in the cassette
 * @example madeUpCogs([24, 28, 33, 39, 46], (teeth) => teeth < 30) // ' 33, 39 and 46 were added to make a cassette and are made up.'
 */
export function madeUpCogs(cassette: readonly number[], isShown: (teeth: number, cog: number) => boolean): string {
  const madeUp = cassette.filter((teeth, cog) => !isShown(teeth, cog));
  if (madeUp.length === 0) return '';
  const [were, are] = madeUp.length === 1 ? ['was', 'is'] : ['were', 'are'];
  return ` ${listed(madeUp)} ${were} added to make a cassette and ${are} made up.`;
}
