/**
 * Pairs true moments with reported ones, one to one, the closest pair first, as long as a pair lies within `withinS` and
 * `fits` agrees.
 *
 * @returns for each true moment the index of its reported partner, -1 where it has none
 * @example matchByTime([10, 20], [21, 12], 5) // [1, 0]
 */
export function matchByTime(
  trueS: readonly number[],
  reportedS: readonly number[],
  withinS: number,
  fits: (t: number, r: number) => boolean = () => true,
): Int32Array {
  const near: { t: number; r: number; apartS: number }[] = [];
  trueS.forEach((at, t) => {
    reportedS.forEach((reported, r) => {
      const apartS = Math.abs(reported - at);
      if (apartS <= withinS && fits(t, r)) near.push({ t, r, apartS });
    });
  });
  near.sort((a, b) => a.apartS - b.apartS || a.t - b.t || a.r - b.r);
  const partner = new Int32Array(trueS.length).fill(-1);
  const taken = new Set<number>();
  for (const { t, r } of near) {
    if (partner[t] >= 0 || taken.has(r)) continue;
    partner[t] = r;
    taken.add(r);
  }
  return partner;
}
