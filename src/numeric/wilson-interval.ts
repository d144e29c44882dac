/** Bounds of a rate, 0 to 1. */
export interface RateInterval {
  readonly low: number;
  readonly high: number;
}

/** The 97.5 % point of the normal distribution. */
const Z95 = 1.959963984540054;

/**
 * Wilson's score interval for `hits` out of `trials`, 95 % by default. Both may be fractions (soft counts).
 * 0 to 1 when there are no trials. Wilson 1927; method 3 in Newcombe 1998, Statistics in Medicine 17:857-872. No library that serves
 * here has it.
 *
 * @example wilsonInterval(0, 20) // { low: 0, high: 0.1611... }
 */
export function wilsonInterval(hits: number, trials: number, z = Z95): RateInterval {
  if (!(trials > 0)) return { low: 0, high: 1 };
  const rate = hits / trials;
  const z2 = (z * z) / trials;
  const centre = (rate + z2 / 2) / (1 + z2);
  const half = (z / (1 + z2)) * Math.sqrt((rate * (1 - rate)) / trials + z2 / (4 * trials));
  return {
    low: hits === 0 ? 0 : Math.max(0, centre - half),
    high: hits === trials ? 1 : Math.min(1, centre + half),
  };
}
