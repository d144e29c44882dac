import { mean, variance } from 'd3-array';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/numeric/seeded-random.ts';

const draws = (count: number, draw: () => number): number[] => Array.from({ length: count }, draw);

describe('seededRandom', () => {
  it('gives the same numbers for the same seed and labels, others for any other', () => {
    const first = draws(5, seededRandom(3, 'a', 0).uniform);
    expect(draws(5, seededRandom(3, 'a', 0).uniform)).toEqual(first);
    for (const other of [
      seededRandom(4, 'a', 0),
      seededRandom(3, 'b', 0),
      seededRandom(3, 'a', 1),
      seededRandom(3, 'a0'),
    ])
      expect(draws(5, other.uniform)).not.toEqual(first);
  });

  it('is uniform over seeds as well as along one stream', () => {
    // Chi-square of 20 bins, 19 degrees of freedom: 43.8 is exceeded once in a thousand (FROM MEMORY).
    for (const sample of [
      draws(20_000, seededRandom(1).uniform),
      Array.from({ length: 20_000 }, (_, seed) => seededRandom(seed, 'ride').uniform()),
    ]) {
      const bins = new Array(20).fill(0);
      for (const value of sample) bins[Math.floor(value * 20)]++;
      const chiSquare = bins.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
      expect(chiSquare).toBeLessThan(43.8);
    }
  });

  it('has streams of neighbouring seeds that are not correlated', () => {
    const a = draws(20_000, seededRandom(10).uniform);
    const b = draws(20_000, seededRandom(11).uniform);
    const product = mean(a.map((value, i) => (value - 0.5) * (b[i] - 0.5))) as number;
    expect(Math.abs(product * 12)).toBeLessThan(4 / Math.sqrt(20_000));
  });

  it('draws the distributions it names', () => {
    const random = seededRandom(2);
    const normal = draws(40_000, random.normal);
    expect(Math.abs(mean(normal) as number)).toBeLessThan(0.02);
    expect(variance(normal) as number).toBeCloseTo(1, 1);
    expect(mean(draws(40_000, () => random.exponential(3))) as number).toBeCloseTo(3, 0);
    const between = draws(2000, () => random.between(-2, 5));
    expect(Math.min(...between)).toBeGreaterThanOrEqual(-2);
    expect(Math.max(...between)).toBeLessThan(5);
    expect(new Set(draws(200, () => random.integer(3)))).toEqual(new Set([0, 1, 2]));
    expect(draws(10_000, () => (random.chance(0.2) ? 1 : 0)).filter(Boolean).length / 10_000).toBeCloseTo(0.2, 1);
    expect(['x', 'y']).toContain(random.pick(['x', 'y']));
  });
});
