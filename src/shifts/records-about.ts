/** Index of the first of the records that lie at most `withinS` before record `i`; `i` itself where none does. */
export function firstWithin(timeS: ArrayLike<number>, i: number, withinS: number): number {
  let first = i;
  while (first > 0 && timeS[i] - timeS[first - 1] <= withinS) first--;
  return first;
}

/** Index after the last of the records that lie at most `withinS` after record `i`. */
export function endWithin(timeS: ArrayLike<number>, i: number, withinS: number): number {
  let end = i + 1;
  while (end < timeS.length && timeS[end] - timeS[i] <= withinS) end++;
  return end;
}
