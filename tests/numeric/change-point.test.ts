import { describe, expect, it } from 'vitest';
import { changePoint } from '../../src/numeric/change-point.ts';
import { logBeta, logGamma } from '../../src/numeric/log-gamma.ts';
import checks from '../checks/statistics.json' with { type: 'json' };

const { counts, total, likeliestIndices } = checks.coalDisasters;

/** Log marginal of Poisson counts under a gamma prior of shape 0.5 and rate 0.01, factorials left out. */
function poissonMarginal(from: number, to: number): number {
  const sum = counts.slice(from, to).reduce((all, count) => all + count, 0);
  return logGamma(0.5 + sum) - (0.5 + sum) * Math.log(0.01 + to - from) - logGamma(0.5) + 0.5 * Math.log(0.01);
}

describe('change point', () => {
  it(`finds the change in the coal-mining series: ${checks.coalDisasters.source}`, () => {
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(total);
    const found = changePoint(counts.length, poissonMarginal);
    const ranked = [...found.keys()].sort((a, b) => found[b] - found[a]);
    expect(ranked.slice(0, 3)).toEqual(likeliestIndices);
    expect(found.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
  });

  it('points at the place of a step, and at none where nothing changes', () => {
    const places = (bad: readonly number[]): Float64Array =>
      changePoint(bad.length, (from, to) => {
        const hits = bad.slice(from, to).reduce((sum, value) => sum + value, 0);
        return logBeta(1 + hits, 1 + to - from - hits) - logBeta(1, 1);
      });
    const alike = Array.from({ length: 60 }, (_, i) => (i % 6 === 0 ? 1 : 0));
    expect(Math.max(...places(alike))).toBeLessThan(0.2);
    expect(places(alike.map((value, i) => (i < 40 ? value : 1)))[39]).toBeGreaterThan(0.5);
  });

  it('has no position in fewer than two entries', () => {
    expect(changePoint(1, () => 0)).toEqual(new Float64Array(0));
  });
});
