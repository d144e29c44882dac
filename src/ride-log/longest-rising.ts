/**
 * The longest subsequence of the indices `order` along which `values` never fall: patience sorting (Fredman, 1975),
 * n log n at worst, n for values that rise already.
 *
 * @example longestRising(Float64Array.of(1, 9, 2, 3), Uint32Array.of(0, 1, 2, 3)) // 0, 2, 3
 */
export function longestRising(values: Float64Array, order: Uint32Array): Uint32Array {
  const tails = new Uint32Array(order.length);
  const before = new Int32Array(order.length);
  let length = 0;
  for (let k = 0; k < order.length; k++) {
    const value = values[order[k]];
    let low = 0;
    let high = length;
    if (length > 0 && values[order[tails[length - 1]]] <= value) low = length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (values[order[tails[middle]]] <= value) low = middle + 1;
      else high = middle;
    }
    before[k] = low > 0 ? tails[low - 1] : -1;
    tails[low] = k;
    if (low === length) length++;
  }
  const rising = new Uint32Array(length);
  for (let k = length > 0 ? tails[length - 1] : -1, to = length - 1; to >= 0; k = before[k]) rising[to--] = order[k];
  return rising;
}
