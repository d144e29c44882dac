import { type Beta, betaCdf } from './beta-distribution.ts';
import { logBeta } from './log-gamma.ts';
import { logistic } from './logistic.ts';

const STEPS = 600;
/** Where the log density has fallen this far below its peak, the rest is under 1e-17. */
const TAIL = 42;

/**
 * Probability that a draw of `b` exceeds an independent draw of `a`, for any positive parameters, whole or not.
 * The density of b in log odds is smooth and falls off exponentially at both ends, so the trapezium rule converges
 * faster than any power of the step. Equals Miller's closed form where b.a is whole. No library that serves here has it.
 *
 * @example probabilityBetaExceeds({ a: 2, b: 1 }, { a: 1, b: 1 }) // 2/3
 */
export function probabilityBetaExceeds(b: Beta, a: Beta): number {
  const peak = Math.log(b.a / b.b);
  const softplus = (x: number): number => (x > 0 ? x + Math.log1p(Math.exp(-x)) : Math.log1p(Math.exp(x)));
  const logDensity = (x: number): number => b.a * x - (b.a + b.b) * softplus(x);
  const top = logDensity(peak);
  const reach = (sign: number): number => {
    let width = 1;
    while (top - logDensity(peak + sign * width) < TAIL && width < 1e6) width *= 1.25;
    return peak + sign * width;
  };
  const low = reach(-1);
  const step = (reach(1) - low) / STEPS;
  const scale = logBeta(b.a, b.b);
  let sum = 0;
  for (let i = 0; i <= STEPS; i++) {
    const x = low + i * step;
    sum += Math.exp(logDensity(x) - scale) * betaCdf(a, logistic(x));
  }
  return Math.min(1, sum * step);
}
