/**
 * Middle of the window of a fixed width that holds most of the values: a mode that stays with the main peak where up to
 * half of the values lie to one side of it, and that a few values cannot throw. Ties go to the first window.
 *
 * @param sorted rising, without NaN
 * @param width of the window, in the values' unit
 * @returns NaN for no values
 * @example densestWindow([1, 2, 2.1, 2.2, 9, 30], 0.5) // 2.1
 */
export function densestWindow(sorted: ArrayLike<number>, width: number): number {
  let best = -1;
  let most = 0;
  for (let first = 0, last = 0; first < sorted.length; first++) {
    while (last < sorted.length && sorted[last] <= sorted[first] + width) last++;
    if (last - first > most) {
      most = last - first;
      best = first;
    }
  }
  return best < 0 ? Number.NaN : (sorted[best] + sorted[best + most - 1]) / 2;
}
