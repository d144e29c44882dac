import type { BikeSummary } from '../api/answers.ts';

/** What is said beside figures that are not up to date; null where they are, or where there are none yet. */
export const staleFigures = ({ staleReason, state }: Pick<BikeSummary, 'staleReason' | 'state'>): string | null =>
  staleReason === null || state.faultProbability === null
    ? staleReason
    : `${staleReason} The figures here are those from before.`;
