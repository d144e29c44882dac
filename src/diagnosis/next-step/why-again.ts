import { endWords } from '../../adjustments/end-cog-words.ts';
import type { Look } from '../../adjustments/looks.ts';
import { parameterName } from '../../adjustments/parameter-words.ts';
import { listed } from '../../numeric/listed.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';

/**
 * Why parts that were seen to are looked at again, a sentence to append to the step that asks for it; empty where none of them was.
 *
 * @param parts those that the step looks at
 */
export function whyAgain(
  parts: readonly Look['parameter'][],
  { overtaken }: Pick<SuggestionFacts, 'overtaken'>,
): string {
  const again = overtaken.filter(({ parameter }) => parts.includes(parameter));
  if (again.length === 0) return '';
  const { end, lostAt } = again.reduce((a, b) => (b.lostAt > a.lostAt ? b : a));
  const seenTo = again.map(({ parameter, at }) => `the ${parameterName(parameter)} was seen to on ${utcDay(at)}`);
  return ` Again, since the chain was lost past the ${endWords[end]} cog on ${utcDay(lostAt)}, after ${listed(seenTo)}.`;
}
