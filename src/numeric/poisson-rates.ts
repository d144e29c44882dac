import { betaQuantile } from './beta-distribution.ts';
import { logGamma } from './log-gamma.ts';

/** Comparison of two Poisson rates. `pValue` is two-sided; `low` and `high` bound the ratio's 95 % interval. */
export interface RateComparison {
  readonly ratio: number;
  readonly pValue: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Rate of `countA` events in `exposureA` against `countB` in `exposureB`, exact and conditional on their sum, as
 * `poisson.test` in R does it: given the sum, countA is binomial. The p-value adds up every outcome at most as likely
 * as the one seen. With no events at all: ratio NaN, p 1, interval 0 to infinity. Counts are whole.
 */
export function comparePoissonRates(
  countA: number,
  exposureA: number,
  countB: number,
  exposureB: number,
): RateComparison {
  const n = countA + countB;
  if (n === 0) return { ratio: Number.NaN, pValue: 1, low: 0, high: Number.POSITIVE_INFINITY };
  const share = exposureA / (exposureA + exposureB);
  const logMass = (k: number): number =>
    logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1) + k * Math.log(share) + (n - k) * Math.log1p(-share);
  const seen = logMass(countA) + 1e-7;
  let pValue = 0;
  for (let k = 0; k <= n; k++) if (logMass(k) <= seen) pValue += Math.exp(logMass(k));
  const toRatio = (p: number): number => ((p / (1 - p)) * exposureB) / exposureA;
  return {
    ratio: countA / exposureA / (countB / exposureB),
    pValue: Math.min(1, pValue),
    low: countA === 0 ? 0 : toRatio(betaQuantile({ a: countA, b: countB + 1 }, 0.025)),
    high: countB === 0 ? Number.POSITIVE_INFINITY : toRatio(betaQuantile({ a: countA + 1, b: countB }, 0.975)),
  };
}
