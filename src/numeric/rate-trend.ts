/** How many of so many cases were bad at one place of a series. */
export interface SeriesCount {
  readonly bad: number;
  readonly of: number;
}

/** A slope or a step in deviations of its own error: 0 where the series cannot tell. */
export interface RateTrend {
  readonly slopeZ: number;
  readonly stepZ: number;
}

/** Angle whose error hangs on the number of cases alone (Anscombe 1948, from memory): 1 / (4 n + 2). */
const angleOf = ({ bad, of }: SeriesCount): number => Math.asin(Math.sqrt((bad + 3 / 8) / (of + 3 / 4)));
const weightOf = ({ of }: SeriesCount): number => (of > 0 ? 4 * of + 2 : 0);

/** Weighted mean of one column taken off another, in the least squares sense: what is left of `values` beside `column`. */
function beside(values: readonly number[], column: readonly number[], weights: readonly number[]): number[] {
  const square = column.reduce((sum, x, i) => sum + weights[i] * x * x, 0);
  if (square < 1e-9) return [...values];
  const share = values.reduce((sum, y, i) => sum + weights[i] * y * column[i], 0) / square;
  return values.map((y, i) => y - share * column[i]);
}

/** A column's coefficient beside the others, in deviations of its error. */
function besideOthers(
  angles: readonly number[],
  column: readonly number[],
  others: readonly (readonly number[])[],
  weights: readonly number[],
): number {
  // each of the others without what those before it hold, so that they can be taken off one by one
  const clean: number[][] = [];
  for (const other of others) clean.push(clean.reduce((left, one) => beside(left, one, weights), [...other]));
  const own = clean.reduce((left, one) => beside(left, one, weights), [...column]);
  const square = own.reduce((sum, x, i) => sum + weights[i] * x * x, 0);
  if (square < 1e-9) return 0;
  return own.reduce((sum, x, i) => sum + weights[i] * x * angles[i], 0) / Math.sqrt(square);
}

/**
 * Fits a straight line, and a step at one place, to rates in a row: weighted least squares on their angles.
 *
 * @param stepAt index of the first count after the step; 0 for none
 */
export function rateTrend(counts: readonly SeriesCount[], stepAt = 0): RateTrend {
  const [angles, weights] = [counts.map(angleOf), counts.map(weightOf)];
  const ones = counts.map(() => 1);
  const place = counts.map((_, i) => i);
  const step = counts.map((_, i) => (stepAt > 0 && i >= stepAt ? 1 : 0));
  return {
    slopeZ: besideOthers(angles, place, [ones, step], weights),
    stepZ: besideOthers(angles, step, [ones, place], weights),
  };
}
