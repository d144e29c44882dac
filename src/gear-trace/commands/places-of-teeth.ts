/** How badly a recorded tooth count fits a place by what else is known, 0 = well. In units of log teeth. */
export type PlaceMisfit = (teeth: number, place: number) => number;

/** Differences of tooth counts beyond this (log) count no more: someone configured another size altogether. */
const MOST_APART = 0.2;

/**
 * Which cog or ring each recorded tooth count stands for. Recorded teeth are what someone configured: where all of them are the
 * bike's they are taken at their word; else they keep their order, no two share a place, and of all such readings the one that fits
 * best is taken, by the teeth themselves and by `misfit`. Where more counts are recorded than the bike has places, the nearest.
 *
 * @param recorded tooth counts; 0 and repeats are passed over
 * @param sizes teeth of the bike's cogs or rings, rising
 * @returns place (index into `sizes`) by recorded tooth count
 */
export function placesOfTeeth(
  recorded: Iterable<number>,
  sizes: readonly number[],
  misfit: PlaceMisfit = () => 0,
): { readonly places: ReadonlyMap<number, number>; readonly cost: number } {
  const seen = [...new Set(recorded)].filter((teeth) => teeth > 0).sort((a, b) => a - b);
  if (seen.every((teeth) => sizes.includes(teeth)))
    return { places: new Map(seen.map((teeth) => [teeth, sizes.indexOf(teeth)])), cost: 0 };
  if (seen.length > sizes.length)
    return { places: new Map(seen.map((teeth) => [teeth, nearest(sizes, teeth)])), cost: 0 };
  const costOf = (i: number, place: number): number =>
    Math.min(MOST_APART, Math.abs(Math.log(seen[i] / sizes[place]))) + misfit(seen[i], place);
  // least[i][p]: the first i counts read with places below p
  const least = Array.from({ length: seen.length + 1 }, () =>
    new Float64Array(sizes.length + 1).fill(Number.POSITIVE_INFINITY),
  );
  least[0].fill(0);
  for (let i = 1; i <= seen.length; i++)
    for (let p = i; p <= sizes.length; p++)
      least[i][p] = Math.min(least[i][p - 1], least[i - 1][p - 1] + costOf(i - 1, p - 1));
  const places = new Map<number, number>();
  for (let i = seen.length, p = sizes.length; i > 0; p--) {
    if (least[i][p] === least[i][p - 1]) continue;
    i--;
    places.set(seen[i], p - 1);
  }
  return { places, cost: least[seen.length][sizes.length] };
}

function nearest(sizes: readonly number[], teeth: number): number {
  let best = 0;
  for (let i = 1; i < sizes.length; i++)
    if (Math.abs(Math.log(sizes[i] / teeth)) < Math.abs(Math.log(sizes[best] / teeth))) best = i;
  return best;
}
