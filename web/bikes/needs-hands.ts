import type { BikeSummary } from '../api/answers.ts';
import { looksFirst } from '../words/looks-first.ts';
import { isSetAside } from '../words/set-aside-words.ts';

/**
 * Whether a bike asks for hands: it was set aside for the workshop, needs service, or is to be looked over first, or the next step begins with a part of it rather than
 * with a ride.
 */
export const needsHands = ({
  state,
  workPart,
  workshopMark,
}: Pick<BikeSummary, 'state' | 'workPart' | 'workshopMark'>): boolean =>
  isSetAside({ workshopMark }) ||
  (!state.underWay && (state.word === 'service' || looksFirst(state) || workPart !== null));
