const P = 0.2316419;
const B = [0.31938153, -0.356563782, 1.781477937, -1.821255978, 1.330274429];

/**
 * Share of a standard normal distribution below `z`, within 7.5e-8 (Abramowitz and Stegun 1964, 26.2.17).
 *
 * @example normalBelow(1.959964) // 0.975
 */
export function normalBelow(z: number): number {
  const t = 1 / (1 + P * Math.abs(z));
  const tail = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * B.reduceRight((sum, b) => (sum + b) * t, 0);
  return z < 0 ? tail : 1 - tail;
}
