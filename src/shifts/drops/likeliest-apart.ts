/** A moment at which a chain may have come off: record index, and the log odds that it did. */
export interface DropFinding {
  readonly start: number;
  readonly logOdds: number;
}

/** Signs this close to each other are of one lost chain. */
const APART_S = 20;

/** One finding for each lost chain, the likeliest of those close to each other, in order of time. */
export function likeliestApart(findings: readonly DropFinding[], timeS: ArrayLike<number>): DropFinding[] {
  const kept: DropFinding[] = [];
  for (const one of [...findings].sort((a, b) => b.logOdds - a.logOdds || a.start - b.start))
    if (kept.every((other) => Math.abs(timeS[one.start] - timeS[other.start]) >= APART_S)) kept.push(one);
  return kept.sort((a, b) => a.start - b.start);
}
