import type { WeighedCandidate } from './weigh-candidate.ts';

/** Signs this close to each other are of one lost chain. */
const APART_S = 20;

/** One finding for each lost chain, the likeliest of those close to each other, in order of time. */
export function likeliestApart<Found extends Pick<WeighedCandidate, 'start' | 'logOdds'>>(
  findings: readonly Found[],
  timeS: ArrayLike<number>,
): Found[] {
  const kept: Found[] = [];
  for (const one of [...findings].sort((a, b) => b.logOdds - a.logOdds || a.start - b.start))
    if (kept.every((other) => Math.abs(timeS[one.start] - timeS[other.start]) >= APART_S)) kept.push(one);
  return kept.sort((a, b) => a.start - b.start);
}
