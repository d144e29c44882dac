/** Index of the first time after `t`; the length where there is none. `timeS` must rise. */
export function firstAfter(timeS: Float64Array, t: number): number {
  let low = 0;
  let high = timeS.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timeS[middle] > t) high = middle;
    else low = middle + 1;
  }
  return low;
}
