import { bisector } from 'd3-array';

/**
 * The longest subsequence of the indices `order` along which `values` never fall: patience sorting (Fredman, 1975),
 * n log n at worst, n for values that rise already.
 *
 * @example longestRising(Float64Array.of(1, 9, 2, 3), Uint32Array.of(0, 1, 2, 3)) // 0, 2, 3
 */
export function longestRising(values: Float64Array, order: Uint32Array): Uint32Array {
  const tails = new Uint32Array(order.length);
  const tailAbove = bisector((k: number) => values[order[k]]).right;
  const before = new Int32Array(order.length);
  let length = 0;
  for (let k = 0; k < order.length; k++) {
    const value = values[order[k]];
    const rises = length === 0 || values[order[tails[length - 1]]] <= value;
    const at = rises ? length : tailAbove(tails, value, 0, length);
    before[k] = at > 0 ? tails[at - 1] : -1;
    tails[at] = k;
    if (at === length) length++;
  }
  const rising = new Uint32Array(length);
  for (let k = length > 0 ? tails[length - 1] : -1, to = length - 1; to >= 0; k = before[k]) rising[to--] = order[k];
  return rising;
}
