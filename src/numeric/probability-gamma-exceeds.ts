import { betaCdf } from './beta-distribution.ts';

/** A Gamma distribution: the usual knowledge of how often something happens, after `shape` times in `rate` hours. */
export interface Gamma {
  readonly shape: number;
  readonly rate: number;
}

/**
 * Probability that a draw of `b` exceeds an independent draw of `a`: each draw times its rate has the rate 1, so the share of the one in the
 * sum of both is Beta(b.shape, a.shape), and the draws are equal where it is b.rate / (a.rate + b.rate).
 *
 * @example probabilityGammaExceeds({ shape: 1, rate: 1 }, { shape: 1, rate: 3 }) // 3/4
 */
export const probabilityGammaExceeds = (b: Gamma, a: Gamma): number =>
  betaCdf({ a: a.shape, b: b.shape }, a.rate / (a.rate + b.rate));
