import { firstAfter } from '../first-after.ts';

/** The longest step between two records, of those that touch the time from `fromS` to `toS`, s; Infinity beyond the ride's ends. */
export function longestStepS(timeS: Float64Array, fromS: number, toS: number): number {
  let longest = 0;
  for (let next = firstAfter(timeS, fromS); ; next++) {
    if (next === 0 || next >= timeS.length) return Number.POSITIVE_INFINITY;
    longest = Math.max(longest, timeS[next] - timeS[next - 1]);
    if (timeS[next] >= toS) return longest;
  }
}
