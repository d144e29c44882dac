import { randomBeta, randomBinomial, randomLcg } from 'd3-random';
import { describe, expect, it } from 'vitest';
import { asRidesDiffer } from '../../src/adjustments/as-rides-differ.ts';
import { probabilityBetter, type TroubleCount } from '../../src/adjustments/compare-rates.ts';

describe('counts of rides whose rates differ', () => {
  it('count for less the longer the ride and the more went wrong, by the design effect of the beta-binomial distribution', () => {
    // 1 + 100 x 0.15² x 0.2 / 0.8 = 1.5625
    const { shifts, trouble } = asRidesDiffer([{ shifts: 100, trouble: 20 }]);
    expect(shifts).toBeCloseTo(100 / 1.5625, 10);
    expect(trouble).toBeCloseTo(20 / 1.5625, 10);
    expect(asRidesDiffer([{ shifts: 300, trouble: 0 }])).toEqual({ shifts: 300, trouble: 0 });
    expect(asRidesDiffer([])).toEqual({ shifts: 0, trouble: 0 });
  });

  it('count for more as several rides than as one', () => {
    const rides = Array.from({ length: 5 }, () => ({ shifts: 60, trouble: 12 }));
    expect(asRidesDiffer(rides).shifts).toBeGreaterThan(1.5 * asRidesDiffer([{ shifts: 300, trouble: 60 }]).shifts);
  });

  it('leave one comparison in ten decided by chance where nothing changed, as counts of shifts alone do not', () => {
    const random = randomLcg(0.42);
    const [rate, differ, shifts] = [0.2, 0.15, 400];
    // a beta distribution of that mean and deviation
    const size = (1 - rate) / (rate * differ ** 2) - 1;
    const rateOfRide = randomBeta.source(random)(rate * size, (1 - rate) * size);
    const ride = (): TroubleCount => ({ shifts, trouble: randomBinomial.source(random)(shifts, rateOfRide())() });
    const decided = { alone: 0, rides: 0 };
    const comparisons = 1500;
    for (let i = 0; i < comparisons; i++) {
      const [before, after] = [ride(), ride()];
      const apart = (better: number): boolean => better < 0.05 || better > 0.95;
      if (apart(probabilityBetter(before, after))) decided.alone++;
      if (apart(probabilityBetter(asRidesDiffer([before]), asRidesDiffer([after])))) decided.rides++;
    }
    expect(decided.rides / comparisons).toBeGreaterThan(0.06);
    expect(decided.rides / comparisons).toBeLessThan(0.13);
    expect(decided.alone / comparisons).toBeGreaterThan(0.2);
  });
});
