import { logBeta } from './log-gamma.ts';

/** Cases and how many of them were bad, before a change and after it, in one stratum. */
export interface Stratum {
  readonly before: { readonly bad: number; readonly of: number };
  readonly after: { readonly bad: number; readonly of: number };
}

const logChoose = (n: number, k: number): number => -Math.log(n + 1) - logBeta(n - k + 1, k + 1);

/** Chances that so many of a stratum's bad cases (from 0 on) fall after the change, were they dealt out by chance. */
function chancesAfter({ before, after }: Stratum): number[] {
  const bad = before.bad + after.bad;
  const all = logChoose(before.of + after.of, bad);
  return Array.from({ length: bad + 1 }, (_, k) =>
    k > after.of || bad - k > before.of ? 0 : Math.exp(logChoose(after.of, k) + logChoose(before.of, bad - k) - all),
  );
}

function convolved(a: readonly number[], b: readonly number[]): number[] {
  const sum = new Array<number>(a.length + b.length - 1).fill(0);
  a.forEach((p, i) => {
    b.forEach((q, j) => {
      sum[i + j] += p * q;
    });
  });
  return sum;
}

/**
 * How sure it is that bad cases are fewer after a change, each stratum compared with itself alone, so that it does not matter which of them
 * were met more often: 1 minus the mid-P value of the exact test of a common odds ratio over 2 x 2 tables (Mantel and Haenszel 1959, Lancaster
 * 1961; both from memory). Near 0 where they are more. A half where nothing tells.
 *
 * @example stratifiedFewer([{ before: { bad: 3, of: 3 }, after: { bad: 0, of: 3 } }]) // 0.975
 */
export function stratifiedFewer(strata: readonly Stratum[]): number {
  const chances = strata.map(chancesAfter).reduce(convolved, [1]);
  const seen = strata.reduce((sum, { after }) => sum + after.bad, 0);
  const above = chances.slice(seen + 1).reduce((sum, p) => sum + p, 0);
  return Math.min(1, above + chances[seen] / 2);
}
