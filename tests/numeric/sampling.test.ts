import { describe, expect, it } from 'vitest';
import { AdaptiveImportance } from '../../src/numeric/adaptive-importance.ts';
import { incompleteBeta } from '../../src/numeric/incomplete-beta.ts';
import { latinHypercube } from '../../src/numeric/latin-hypercube.ts';
import { logBeta } from '../../src/numeric/log-gamma.ts';
import { logSumExp } from '../../src/numeric/log-sum-exp.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';

describe('Latin hypercube', () => {
  it('puts one point in each slice of every dimension', () => {
    const [count, dimensions] = [50, 7];
    const points = latinHypercube(count, dimensions, seededRandom(1));
    for (let d = 0; d < dimensions; d++) {
      const slices = Array.from({ length: count }, (_, i) => Math.floor(points[i * dimensions + d] * count));
      expect(new Set(slices).size).toBe(count);
    }
    expect(latinHypercube(count, dimensions, seededRandom(1))).toEqual(points);
  });
});

describe('adaptive importance sampling', () => {
  const dimensions = 12;
  /** A sharp likelihood in three dimensions: binomial counts, whose mean over the unit cube is known exactly. */
  const trials = [
    [3, 97],
    [60, 40],
    [180, 20],
  ] as const;
  const exact = trials.reduce((sum, [hits, misses]) => sum + logBeta(hits + 1, misses + 1), 0);
  const evaluate = (points: Float64Array, row: number): number =>
    trials.reduce((sum, [hits, misses], d) => {
      const u = points[row * dimensions + d];
      return sum + hits * Math.log(u) + misses * Math.log1p(-u);
    }, 0);

  const run = (seed: number) => {
    const points = latinHypercube(500, dimensions, seededRandom(seed));
    const logLikelihood = Float64Array.from({ length: 500 }, (_, row) => evaluate(points, row));
    const search = new AdaptiveImportance({ points, logLikelihood }, dimensions, seededRandom(seed, 'more'), evaluate);
    for (let stage = 0; stage < 2; stage++) search.drawStage(250);
    return search.found;
  };

  it('finds the log of the mean likelihood within a quarter, seed after seed', () => {
    for (let seed = 0; seed < 8; seed++) {
      const found = run(seed);
      expect(found.count).toBe(1000);
      const estimate = logSumExp(found.logLikelihood.map((value, i) => value + found.logWeight[i])) - Math.log(1000);
      expect(Math.abs(estimate - exact)).toBeLessThan(0.25);
    }
  });

  it('weighs points so that shares come out right', () => {
    const found = run(3);
    const logs = found.logLikelihood.map((value, i) => value + found.logWeight[i]);
    const total = logSumExp(logs);
    let below = 0;
    for (let i = 0; i < found.count; i++)
      if (found.points[i * dimensions + 1] < 0.6) below += Math.exp(logs[i] - total);
    expect(below).toBeCloseTo(incompleteBeta(0.6, 61, 41), 1);
  });

  it('keeps the weights of a flat likelihood at 1', () => {
    const points = latinHypercube(200, dimensions, seededRandom(5));
    const first = { points, logLikelihood: new Float64Array(200) };
    const search = new AdaptiveImportance(first, dimensions, seededRandom(6), () => 0);
    search.drawStage(100);
    const flat = search.found;
    for (const weight of flat.logWeight) expect(Math.abs(weight)).toBeLessThan(0.5);
    expect(logSumExp(flat.logWeight) - Math.log(300)).toBeCloseTo(0, 1);
  });
});
