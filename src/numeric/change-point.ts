import { logSumExp } from './log-sum-exp.ts';

/** Where a sequence changed, if it changed once. */
export interface ChangePoint {
  /** Log of (probability of the data with one change / with none), every position being as likely as any other. */
  readonly logBayesFactor: number;
  /** Probability, given a change, that position `i` is the last before it; one less than the sequence is long. */
  readonly probability: Float64Array;
}

/**
 * Bayesian single change point (Smith 1975; Raftery and Akman 1986): `logMarginal(from, to)` is the log marginal
 * likelihood of the entries `from` to `to` (excluded) with one rate of their own. Fewer than two entries: factor 0, no
 * positions.
 */
export function changePoint(length: number, logMarginal: (from: number, to: number) => number): ChangePoint {
  if (length < 2) return { logBayesFactor: 0, probability: new Float64Array(0) };
  const logs = Float64Array.from({ length: length - 1 }, (_, i) => logMarginal(0, i + 1) + logMarginal(i + 1, length));
  const total = logSumExp(logs);
  return {
    logBayesFactor: total - Math.log(length - 1) - logMarginal(0, length),
    probability: logs.map((value) => Math.exp(value - total)),
  };
}
