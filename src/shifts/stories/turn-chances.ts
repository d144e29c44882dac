import { CLEAN_WITHIN_REVS, LATE_WITHIN_REVS } from '../turn-limits.ts';

/** Step of the revolutions grid, turns of the cranks. */
export const REV_STEP = 0.25;
/** How many steps it has: up to 20 turns. */
export const REVS = 80;

/** Mean turns after the limit of a clean shift in which the late ones come: half of them soon, half in some turns. Assumptions of ours. */
const SOON_REVS = 0.6;
const SOME_REVS = 2;
/** Mean turns after the limit of a late shift in which the very late ones come. An assumption of ours. */
const VERY_LATE_REVS = 6;
/** Shares of a ride's shifts that take about its usual turns, and more. Assumptions of ours. */
const SHARE = { usual: 0.9, later: 0.1 };

/**
 * Chances of the number of crank revolutions that a shift takes, given that it completes. Nobody has published measured
 * shift times (see README): a healthy shift waits for the next ramp and takes well under a turn, so a gamma of mean 0.6
 * turns; of the late ones half are caught by one of the next ramps, soon after, since nothing happens to a chain at 1.5 turns, and the others tail off over
 * some turns; one later than five turns is counted as missed. Assumptions of ours.
 */
export const cleanDensity: Float64Array = density((revs) => revs ** 2 * Math.exp(-revs / 0.2), 0, CLEAN_WITHIN_REVS);
/**
 * The same on a cog onto which clean shifts are slow: its ramps are few, or it is large, so that the chain takes long to wrap round it. A
 * gamma of mean 1 turn. An assumption of ours.
 */
export const slowDensity: Float64Array = density((revs) => revs ** 2 * Math.exp(-revs * 3), 0, CLEAN_WITHIN_REVS);
/** The same of a late shift. */
export const lateDensity: Float64Array = density(
  (revs) => [SOON_REVS, SOME_REVS].reduce((sum, mean) => sum + Math.exp((CLEAN_WITHIN_REVS - revs) / mean) / mean, 0),
  CLEAN_WITHIN_REVS,
  LATE_WITHIN_REVS,
);
/** The same of a shift that comes after the limit of a late one. */
export const veryLateDensity: Float64Array = density(
  (revs) => Math.exp(-(revs - LATE_WITHIN_REVS) / VERY_LATE_REVS),
  LATE_WITHIN_REVS,
  REVS * REV_STEP,
);

/** Every number of turns alike: for a chain that goes nowhere, of which no number of turns tells anything. */
export const evenDensity: Float64Array = density(() => 1, 0, REVS * REV_STEP);

/** Chances of the turns of a shift that is as a clean one with this chance, as a late one else. */
export const cleanOrLate = (cleanShare: number): Float64Array =>
  cleanDensity.map((clean, k) => cleanShare * clean + (1 - cleanShare) * lateDensity[k]);

/** Chances of the turns of a ride whose shifts mostly take `turns`: nine in ten about there (gamma), the others later; the sensors show all of them `lagTurns` later. */
export function usualDensity(turns: number, lagTurns: number): Float64Array {
  const usual = density((revs) => (revs - lagTurns) ** 2 * Math.exp((-3 * (revs - lagTurns)) / turns), lagTurns);
  const from = lagTurns + turns;
  const later = density((revs) => Math.exp(-(revs - from) / 2), from, from + 4);
  return usual.map((value, k) => SHARE.usual * value + SHARE.later * later[k]);
}

function density(shape: (revs: number) => number, from: number, to = REVS * REV_STEP): Float64Array {
  const values = Float64Array.from({ length: REVS }, (_, k) => {
    const revs = (k + 0.5) * REV_STEP;
    return revs > from && revs <= to ? shape(revs) : 0;
  });
  const sum = values.reduce((a, value) => a + value, 0);
  return values.map((value) => value / sum);
}
