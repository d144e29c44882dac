import { describe, expect, it } from 'vitest';
import { mixedBinomial, mixedPoisson } from '../../src/numeric/mixed-counts.ts';

const total = (chances: readonly number[]): number => chances.reduce((sum, p) => sum + p, 0);

describe('mixed counts', () => {
  it('sum to 1', () => {
    expect(total(mixedBinomial([0, 0.2, 0.7, 1], 7))).toBeCloseTo(1, 12);
    expect(total(mixedPoisson([0.3, 5], 60))).toBeCloseTo(1, 12);
  });

  it('are those of the one chance where there is one, and the mean of several', () => {
    mixedBinomial([0.25], 2).forEach((p, hits) => {
      expect(p).toBeCloseTo([0.5625, 0.375, 0.0625][hits], 12);
    });
    mixedBinomial([0, 1], 2).forEach((p, hits) => {
      expect(p).toBeCloseTo([0.5, 0, 0.5][hits], 12);
    });
    expect(mixedPoisson([2], 3)[1]).toBeCloseTo(2 * Math.exp(-2), 12);
    expect(mixedPoisson([1, 3], 0)[0]).toBeCloseTo((Math.exp(-1) + Math.exp(-3)) / 2, 12);
  });
});
