/**
 * Half-sample mode of sorted values (Robertson and Cryer 1974; Bickel and Fruehwirth 2006): the densest half, of that
 * the densest half, and so on. It stays with the main peak where up to half of the values lie to one side of it.
 *
 * @param sorted rising, without NaN
 * @returns NaN for no values
 * @example halfSampleMode([1, 2, 2.1, 2.2, 9, 30]) // 2.05 to 2.15
 */
export function halfSampleMode(sorted: ArrayLike<number>): number {
  let from = 0;
  let count = sorted.length;
  if (count === 0) return Number.NaN;
  while (count > 3) {
    const half = Math.ceil(count / 2);
    let best = from;
    for (let i = from; i + half <= from + count; i++)
      if (sorted[i + half - 1] - sorted[i] < sorted[best + half - 1] - sorted[best]) best = i;
    from = best;
    count = half;
  }
  if (count === 1) return sorted[from];
  if (count === 2) return (sorted[from] + sorted[from + 1]) / 2;
  const left = sorted[from + 1] - sorted[from];
  const right = sorted[from + 2] - sorted[from + 1];
  if (left === right) return sorted[from + 1];
  return left < right ? (sorted[from] + sorted[from + 1]) / 2 : (sorted[from + 1] + sorted[from + 2]) / 2;
}
