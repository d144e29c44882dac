import { logGamma } from './log-gamma.ts';

/** Half of what a 95 % interval leaves out. */
const TAIL = 0.025;
const HALVINGS = 60;

/**
 * The exact 95 % interval of the number expected, where `count` were counted: the smallest mean with which so many or more, and the
 * largest with which so many or fewer, still come in 1 of 40 cases. `count`: a whole number, 0 or more. Garwood 1936, Biometrika 28:437-442.
 * No library that serves here has it.
 *
 * @example poissonInterval(0) // { low: 0, high: 3.6888... }
 */
export function poissonInterval(count: number): { low: number; high: number } {
  const furthest = count + 10 * Math.sqrt(count + 1) + 10;
  return {
    low: count === 0 ? 0 : meanWhere((mean) => 1 - chanceOfAtMost(count - 1, mean) < TAIL, furthest),
    high: meanWhere((mean) => chanceOfAtMost(count, mean) > TAIL, furthest),
  };
}

/** Where `isBelow` ends, between 0 and `furthest`. */
function meanWhere(isBelow: (mean: number) => boolean, furthest: number): number {
  let [from, to] = [0, furthest];
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (from + to) / 2;
    if (isBelow(middle)) from = middle;
    else to = middle;
  }
  return (from + to) / 2;
}

function chanceOfAtMost(count: number, mean: number): number {
  let sum = 0;
  for (let k = 0; k <= count; k++) sum += Math.exp(k * Math.log(mean) - mean - logGamma(k + 1));
  return Math.min(1, sum);
}
