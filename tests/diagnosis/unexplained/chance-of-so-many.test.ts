import { describe, expect, it } from 'vitest';
import { chanceOfSoMany } from '../../../src/diagnosis/unexplained/chance-of-so-many.ts';

/** The binomial tail, term by term. */
function binomialTail(hits: number, trials: number, rate: number): number {
  let total = 0;
  for (let k = hits; k <= trials; k++) {
    let ways = 1;
    for (let i = 1; i <= k; i++) ways *= (trials - k + i) / i;
    total += ways * rate ** k * (1 - rate) ** (trials - k);
  }
  return total;
}

describe('the chance of so many shifts gone wrong', () => {
  it('is the binomial tail where cogs are all alike', () => {
    for (const [hits, trials, rate] of [
      [1, 1, 0.5],
      [3, 20, 0.05],
      [12, 12, 0.8],
    ])
      expect(chanceOfSoMany(hits, trials, rate, 0)).toBeCloseTo(binomialTail(hits, trials, rate), 10);
    expect(chanceOfSoMany(0, 12, 0.01, 0.7)).toBe(1);
  });

  it('is larger the less alike cogs are, where more goes wrong than was foretold', () => {
    const chances = [0, 0.4, 0.7].map((unlikeness) => chanceOfSoMany(5, 20, 0.03, unlikeness));
    expect(chances).toEqual([...chances].sort((a, b) => a - b));
    expect(chances[2]).toBeGreaterThan(3 * chances[0]);
  });

  it('never takes a cog to be all but sure either way', () => {
    expect(chanceOfSoMany(4, 4, 0, 0)).toBeCloseTo(1e-12, 20);
    expect(chanceOfSoMany(4, 4, 1, 0)).toBeLessThan(1);
  });
});
