import { directionPhrase } from '../../src/report/words/cog-sentences.ts';
import type { BikeSummary } from '../api/answers.ts';
import { percentFigure } from './numbers.ts';

type WorstCog = NonNullable<BikeSummary['state']['worstCog']>;

/** How often shifts onto the cog that stands out go wrong, of how many, and from which side: few shifts say little, and the other side may do well. */
export const worstCogWords = ({ teeth, direction, shifts, troubleRate }: WorstCog): string =>
  `${percentFigure(troubleRate)} of ${shifts} onto the ${teeth} ${directionPhrase[direction]}`;
