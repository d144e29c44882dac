import { logSumExp } from './log-sum-exp.ts';

/**
 * Where a sequence changed, if it changed once (Bayesian single change point: Smith 1975; Raftery and Akman 1986),
 * every position being as likely as any other beforehand.
 *
 * @param logMarginal log marginal likelihood of the entries `from` to `to` (excluded) with one rate of their own
 * @returns probability that entry `i` is the last before the change, one less than the sequence is long; sums to 1. Empty
 *   for fewer than two entries
 */
export function changePoint(length: number, logMarginal: (from: number, to: number) => number): Float64Array {
  if (length < 2) return new Float64Array(0);
  const logs = Float64Array.from({ length: length - 1 }, (_, i) => logMarginal(0, i + 1) + logMarginal(i + 1, length));
  const total = logSumExp(logs);
  return logs.map((value) => Math.exp(value - total));
}
