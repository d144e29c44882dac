/**
 * Density of Student's t with 4 degrees of freedom at `z` deviations, `deviation` wide: a peak like the normal one with heavy
 * tails, so that a stray value costs little.
 *
 * @example studentT4(0, 1) // 0.375
 */
export const studentT4 = (z: number, deviation: number): number => (0.375 / deviation) * (1 + (z * z) / 4) ** -2.5;

/**
 * What a value `z` deviations off costs under the same distribution, in nats: how far its log density lies below the peak's.
 *
 * @example studentT4Cost(0) // 0
 */
export const studentT4Cost = (z: number): number => 2.5 * Math.log1p(z ** 2 / 4);
