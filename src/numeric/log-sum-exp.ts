/**
 * log(sum(exp(values))) without overflow. -Infinity for an empty list or for nothing but -Infinity; NaN if any value is NaN.
 *
 * @example logSumExp([Math.log(1), Math.log(3)]) // Math.log(4)
 */
export function logSumExp(values: ArrayLike<number>): number {
  let max = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) return Number.NaN;
    if (values[i] > max) max = values[i];
  }
  if (!Number.isFinite(max)) return max;
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += Math.exp(values[i] - max);
  return max + Math.log(sum);
}
