import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dirichletMixtureMean } from '../../src/numeric/dirichlet-mixture.ts';

describe('posterior mean under a mixture of Dirichlet distributions', () => {
  it('of one component is the rule of succession', () => {
    // Laplace's rule: a uniform prior and s of n give (s + 1) / (n + 2)
    const [share] = dirichletMixtureMean([{ weight: 1, trials: 2, shares: [0.5, 0.5] }], [9, 3]);
    expect(share).toBeCloseTo(10 / 14, 12);
  });

  it('weighs components by how well they foretold the counts', () => {
    // Worked by hand: one hit has chance 1/2 under Beta(1, 1) and 2/3 under Beta(2, 1), so the weights become 3/7 and 4/7,
    // the means 2/3 and 3/4.
    const mean = dirichletMixtureMean(
      [
        { weight: 0.5, trials: 2, shares: [0.5, 0.5] },
        { weight: 0.5, trials: 3, shares: [2 / 3, 1 / 3] },
      ],
      [1, 0],
    );
    expect(mean[0]).toBeCloseTo(5 / 7, 12);
    expect(mean[1]).toBeCloseTo(2 / 7, 12);
  });

  it('keeps to shares that sum to 1, and comes to the counts as these grow', () => {
    const prior = [
      { weight: 0.7, trials: 100, shares: [0.9, 0.06, 0.04] },
      { weight: 0.3, trials: 4, shares: [0.5, 0.3, 0.2] },
    ];
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 5000, noNaN: true }), { minLength: 3, maxLength: 3 }), (counts) => {
        const mean = dirichletMixtureMean(prior, counts);
        expect(mean.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
        const total = counts.reduce((a, b) => a + b, 0);
        mean.forEach((share, i) => {
          if (total > 0) expect(Math.abs(share - counts[i] / total)).toBeLessThanOrEqual(100 / (100 + total) + 1e-9);
        });
      }),
    );
  });
});
