import { incompleteBeta } from '../../numeric/incomplete-beta.ts';
import { LOGISTIC_SCALE, logistic } from '../../numeric/logistic.ts';

/** The distribution of cogs' own rates is stood for by so many of them, each as likely. */
const POINTS = 25;
/** About standard normal: logistic values in the middles of parts of equal probability. */
const spread = Array.from({ length: POINTS }, (_, i) => Math.log((i + 0.5) / (POINTS - i - 0.5)) / LOGISTIC_SCALE);

/** A rate below this, or above its opposite, is not believed of any bike. */
const LEAST_RATE = 0.001;

/**
 * Chance that at least `hits` of `trials` shifts go wrong where the rate foretold is `rate`, though no two cogs are alike: the log odds
 * of their own rates scatter about it with a standard deviation `unlikeness`. 1 for no hits.
 *
 * @example chanceOfSoMany(1, 1, 0.5, 0) // 0.5
 */
export function chanceOfSoMany(hits: number, trials: number, rate: number, unlikeness: number): number {
  if (hits <= 0) return 1;
  const held = Math.min(1 - LEAST_RATE, Math.max(LEAST_RATE, rate));
  const logOdds = Math.log(held / (1 - held));
  const chances = spread.map((one) => {
    const own = logistic(logOdds + unlikeness * one);
    return incompleteBeta(own, hits, trials - hits + 1);
  });
  return chances.reduce((sum, chance) => sum + chance, 0) / chances.length;
}
