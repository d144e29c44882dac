import type { BikeSummary } from '../api/answers.ts';
import { looksFirst } from '../words/looks-first.ts';

/**
 * Whether a bike asks for hands: it needs service, or is to be looked over first, or the next step begins with a part of it rather than
 * with a ride.
 */
export const needsHands = ({ state, workPart }: Pick<BikeSummary, 'state' | 'workPart'>): boolean =>
  !state.underWay && (state.word === 'service' || looksFirst(state) || workPart !== null);
