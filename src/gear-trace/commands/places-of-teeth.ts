import { min, minIndex } from 'd3-array';

/** How badly a recorded tooth count fits a place by what else is known, 0 = well. In units of log teeth. */
export type PlaceMisfit = (teeth: number, place: number) => number;

/** Differences of tooth counts beyond this (log) count no more: someone configured another size altogether. */
const MOST_APART = 0.2;
/** A place of the bike's between two recorded counts that was never recorded itself costs so much (log) where nearly all places were, and less where few: riders shift from one cog to the next. An assumption of ours. */
const PASSED_OVER = 0.1;

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
  const passedOver = (PASSED_OVER * seen.length) / sizes.length;
  // least[i][p]: the first counts up to i, with i at place p
  const least = seen.map(() => new Float64Array(sizes.length).fill(Number.POSITIVE_INFINITY));
  const placeBefore = (i: number, place: number): number =>
    minIndex(least[i - 1].subarray(0, place), (cost, q) => cost + passedOver * (place - q - 1));
  const before = seen.map(() => new Int8Array(sizes.length));
  seen.forEach((_, i) => {
    for (let place = i; place < sizes.length; place++) {
      least[i][place] = costOf(i, place);
      if (i === 0) continue;
      const q = placeBefore(i, place);
      before[i][place] = q;
      least[i][place] += least[i - 1][q] + passedOver * (place - q - 1);
    }
  });
  const places = new Map<number, number>();
  const last = seen.length - 1;
  for (let i = last, place = minIndex(least[last]); i >= 0; place = before[i][place], i--) places.set(seen[i], place);
  return { places, cost: min(least[last]) ?? 0 };
}

function nearest(sizes: readonly number[], teeth: number): number {
  let best = 0;
  for (let i = 1; i < sizes.length; i++)
    if (Math.abs(Math.log(sizes[i] / teeth)) < Math.abs(Math.log(sizes[best] / teeth))) best = i;
  return best;
}
