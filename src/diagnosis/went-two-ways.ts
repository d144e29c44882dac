import type { SuggestionFacts } from './next-step/suggestion-facts.ts';
import { touchesCause } from './now/goes-against.ts';

/**
 * Whether work on a part that the likeliest cause does not hang on made one part of the shifts better and another worse. One cause that was there all along
 * would have gone on failing as it did: what was wrong before and what is wrong since are two things, to be weighed apart.
 *
 * @param at when the work was done
 */
export function wentTwoWays(
  { ranked, comparisons }: Pick<SuggestionFacts, 'ranked' | 'comparisons'>,
  at: string,
): boolean {
  const { group } = comparisons.findLast((one) => one.at === at) ?? {};
  return comparisons.some(
    (one) => one.group === group && one.oppositeWays !== null && !touchesCause(ranked[0].cause, one),
  );
}
