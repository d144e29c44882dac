import { probabilityBetaExceeds } from '../numeric/probability-beta-exceeds.ts';

/** Judged shifts of a period and how many of them were late, missed or overshot. */
export interface TroubleCount {
  readonly trouble: number;
  readonly shifts: number;
}

/** Decided: at least this sure that it got better, or as sure that it got worse. An assumption of ours. */
export const DECIDED_AT = 0.95;
/** Whether a probability that it got better decides it, one way or the other. */
export const isDecided = (better: number): boolean => better >= DECIDED_AT || better <= 1 - DECIDED_AT;

/** Rate a well set bike is taken to show after a cure, before there is a shift to count. An assumption of ours. */
const CURED_RATE = 0.015;
/** More judged shifts than this are not within reach. */
export const FURTHEST_SHIFTS = 600;

/**
 * Probability that the rate of trouble after is lower than before. The prior of both rates is Beta(1, 1/m - 1), whose
 * mean m is the rate of both periods together: a few clean shifts after a good period then say little either way.
 * 0.5 where either period has no judged shift.
 */
export function probabilityBetter(before: TroubleCount, after: TroubleCount): number {
  if (before.shifts === 0 || after.shifts === 0) return 0.5;
  const pooled = Math.min(0.5, (before.trouble + after.trouble + 0.5) / (before.shifts + after.shifts + 1));
  const rate = (count: TroubleCount) => ({
    a: 1 + count.trouble,
    b: 1 / pooled - 1 + count.shifts - count.trouble,
  });
  return probabilityBetaExceeds(rate(before), rate(after));
}

/**
 * How many more judged shifts, if they go on as those after the adjustment did (as a cured bike does, where there are
 * none yet), until the comparison is 95 % sure one way or the other. 0 when it is; null when nothing was ridden before
 * the adjustment, or when no number within reach (600) would do.
 *
 * @param worth what one more shift counts for, where the counts are of rides that differ (`asRidesDiffer`)
 */
export function shiftsStillNeeded(before: TroubleCount, after: TroubleCount, worth = 1): number | null {
  const rate = after.shifts === 0 ? CURED_RATE : after.trouble / after.shifts;
  const decided = (more: number): boolean => {
    const grown = { trouble: after.trouble + rate * more * worth, shifts: after.shifts + more * worth };
    return isDecided(probabilityBetter(before, grown));
  };
  if (decided(0)) return 0;
  if (!decided(FURTHEST_SHIFTS)) return null;
  let low = 0;
  let high = FURTHEST_SHIFTS;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (decided(middle)) high = middle;
    else low = middle;
  }
  return high;
}
