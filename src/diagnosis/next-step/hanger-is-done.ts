import { looksFor } from '../looked-for.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';

/** Whether nothing speaks of the hanger as unchecked: it was found right, or it was aligned and is not known to fail on. */
export const hangerIsDone = ({
  now,
  seenTo,
  foundRight,
}: Pick<SuggestionFacts, 'now' | 'seenTo' | 'foundRight'>): boolean =>
  [...foundRight, ...(now.setting === 'same' ? [] : seenTo)].some(({ parameter }) =>
    looksFor(parameter, 'hanger-bent'),
  );
