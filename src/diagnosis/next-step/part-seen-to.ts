import type { Step } from './step.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';

/** What is looked at where cable and housing were seen to and it sticks all the same. Common practice in the trade, no source. */
const REST_OF_CABLE =
  'look at what was not renewed before any indexing: the last bend of housing with its end caps and liner, the clamp, and the pivots of the derailleur.';
const WHERE_IT_STICKS =
  'With the chain off load, pull the bare cable by hand: it should run and spring back freely. Where it does, move the derailleur by hand: it should swing in and spring back without sticking.';

/**
 * The step for a fault whose part was seen to, and ridden on, while shifts go on failing: the same work is not asked for a second time. Null where nothing of
 * the kind was done.
 */
export function partSeenTo(
  cause: Fault,
  { comparisons, electronic }: SuggestionFacts,
): Pick<Step, 'steps' | 'start'> | null {
  if (cause !== 'cable-friction' || electronic) return null;
  const done = comparisons.findLast(({ parameter, after }) => parameter === 'cable-and-housing' && after.shifts > 0);
  if (!done) return null;
  return {
    steps: [
      `Cable and housing were seen to on ${new Date(done.at).toISOString().slice(0, 10)}, and it is not gone: ${REST_OF_CABLE}`,
    ],
    start: WHERE_IT_STICKS,
  };
}
