import { incompleteBeta } from './incomplete-beta.ts';

/** A Beta distribution, the usual knowledge of a rate after `a - 1` hits and `b - 1` misses with a flat prior. */
export interface Beta {
  readonly a: number;
  readonly b: number;
}

/** Share of the distribution below x. */
export function betaCdf(beta: Beta, x: number): number {
  return incompleteBeta(x, beta.a, beta.b);
}

/**
 * The x below which the share `probability` lies, by bisection to full double precision. `qbeta` in R.
 * NaN for a probability outside 0..1. Own code for the reason that `incompleteBeta` gives.
 *
 * @example betaQuantile({ a: 1, b: 1 }, 0.3) // 0.3
 */
export function betaQuantile(beta: Beta, probability: number): number {
  if (!(probability >= 0 && probability <= 1)) return Number.NaN;
  if (probability === 0) return 0;
  if (probability === 1) return 1;
  let low = 0;
  let high = 1;
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (betaCdf(beta, middle) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** A Beta distribution as a few values, each standing for an equal share of it: the quantiles in the middle of the shares. */
export function betaMidpoints(beta: Beta, count: number): number[] {
  return Array.from({ length: count }, (_, i) => betaQuantile(beta, (i + 0.5) / count));
}
