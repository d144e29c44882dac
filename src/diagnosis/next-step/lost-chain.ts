import type { SuggestionFacts } from './suggestion-facts.ts';

type Lost = Pick<SuggestionFacts, 'drops'>;

/** How often the chain came off the chainring, or nobody knows where. */
export const chainsLostElsewhere = ({ drops }: Lost): number => drops('chainring') + drops('unknown');

/** Whether it came off at all. */
export const lostChain = (lost: Lost): boolean =>
  chainsLostElsewhere(lost) + lost.drops('past-largest') + lost.drops('past-smallest') > 0;
