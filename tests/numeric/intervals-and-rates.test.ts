import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { betaCdf, betaQuantile } from '../../src/numeric/beta-distribution.ts';
import { incompleteBeta } from '../../src/numeric/incomplete-beta.ts';
import { logGamma } from '../../src/numeric/log-gamma.ts';
import { logSumExp } from '../../src/numeric/log-sum-exp.ts';
import { poissonInterval } from '../../src/numeric/poisson-interval.ts';
import { probabilityBetaExceeds } from '../../src/numeric/probability-beta-exceeds.ts';
import { type Gamma, probabilityGammaExceeds } from '../../src/numeric/probability-gamma-exceeds.ts';
import { wilsonInterval } from '../../src/numeric/wilson-interval.ts';
import checks from '../checks/statistics.json' with { type: 'json' };

const near = (got: number, wanted: number, tolerance: number): void => {
  expect(Math.abs(got - wanted), `${got} against ${wanted}`).toBeLessThanOrEqual(
    tolerance * Math.max(1, Math.abs(wanted)),
  );
};

describe('Wilson interval', () => {
  it.each(checks.wilson.rows)('%i of %i', (hits, trials, low, high) => {
    const interval = wilsonInterval(hits, trials);
    near(interval.low, low, checks.wilson.tolerance);
    near(interval.high, high, checks.wilson.tolerance);
  });
  it.each(checks.wilsonRounded.rows)('%i hits, %i failures with z = 1.96', (hits, failures, low, high) => {
    const interval = wilsonInterval(hits, hits + failures, 1.96);
    near(interval.low, low, checks.wilsonRounded.tolerance);
    near(interval.high, high, checks.wilsonRounded.tolerance);
  });
  it('is 0 to 1 without trials', () => expect(wilsonInterval(0, 0)).toEqual({ low: 0, high: 1 }));
  it('holds the rate and mirrors hits and failures', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 500 }), fc.integer({ min: 1, max: 500 }), (hits, more) => {
        const trials = hits + more;
        const one = wilsonInterval(hits, trials);
        const other = wilsonInterval(more, trials);
        return (
          one.low <= hits / trials &&
          hits / trials <= one.high &&
          Math.abs(one.low - (1 - other.high)) < 1e-12 &&
          Math.abs(one.high - (1 - other.low)) < 1e-12
        );
      }),
    );
  });
});

describe('Poisson interval', () => {
  it.each(checks.poissonInterval.rows)('%i counted', (count, low, high) => {
    const interval = poissonInterval(count);
    near(interval.low, low, checks.poissonInterval.tolerance);
    near(interval.high, high, checks.poissonInterval.tolerance);
  });
  it('holds the count, and rises with it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2000 }), (count) => {
        const [one, next] = [poissonInterval(count), poissonInterval(count + 1)];
        return one.low <= count && count < one.high && one.low < next.low && one.high < next.high;
      }),
      { numRuns: 40 },
    );
  });
});

describe('gamma, beta', () => {
  it.each(checks.logGamma.rows)('log gamma of %d', (x, value) => near(logGamma(x), value, checks.logGamma.tolerance));
  it.each(checks.logGammaAgain.rows)('log gamma of %d, by a second source', (x, value) =>
    near(logGamma(x), value, checks.logGammaAgain.tolerance),
  );
  it('log gamma meets factorials and its recurrence', () => {
    let factorial = 1;
    for (let n = 1; n <= 20; n++) {
      factorial *= n;
      near(logGamma(n + 1), Math.log(factorial), 1e-13);
    }
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1e5, noNaN: true }), (x) => {
        const step = logGamma(x + 1) - logGamma(x);
        return Math.abs(step - Math.log(x)) < 1e-9 * Math.max(1, Math.abs(logGamma(x)));
      }),
    );
    expect(logGamma(0)).toBeNaN();
  });
  it.each(checks.incompleteBeta.rows)('incomplete beta at %d of (%d, %d)', (x, a, b, value) =>
    near(incompleteBeta(x, a, b), value, checks.incompleteBeta.tolerance),
  );
  it.each(checks.incompleteBetaAgain.rows)('incomplete beta at %d of (%d, %d), by a second source', (x, a, b, value) =>
    near(incompleteBeta(x, a, b), value, checks.incompleteBetaAgain.tolerance),
  );
  it('incomplete beta mirrors', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }),
        fc.double({ min: 0.05, max: 800, noNaN: true }),
        fc.double({ min: 0.05, max: 800, noNaN: true }),
        (x, a, b) => Math.abs(incompleteBeta(x, a, b) + incompleteBeta(1 - x, b, a) - 1) < 1e-9,
      ),
    );
  });
  it.each(checks.betaQuantile.rows)('beta quantile %d of (%d, %d)', (probability, a, b, value) =>
    near(betaQuantile({ a, b }, probability), value, checks.betaQuantile.tolerance),
  );
  it.each(checks.betaQuantileAgain.rows)(
    'beta quantile %d of (%d, %d), by a second source',
    (probability, a, b, value) => near(betaQuantile({ a, b }, probability), value, checks.betaQuantileAgain.tolerance),
  );
  it('quantile and share undo one another', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        fc.integer({ min: 1, max: 300 }),
        fc.integer({ min: 1, max: 300 }),
        (p, a, b) => Math.abs(betaCdf({ a, b }, betaQuantile({ a, b }, p)) - p) < 1e-9,
      ),
      { numRuns: 50 },
    );
    expect(betaQuantile({ a: 1, b: 1 }, 2)).toBeNaN();
  });
});

/** Slow twin: Miller's closed form, for whole numbers. */
function millersSum(aA: number, bA: number, aB: number, bB: number): number {
  const logB = (a: number, b: number): number => logGamma(a) + logGamma(b) - logGamma(a + b);
  let sum = 0;
  for (let i = 0; i < aB; i++)
    sum += Math.exp(logB(aA + i, bA + bB) - Math.log(bB + i) - logB(1 + i, bB) - logB(aA, bA));
  return sum;
}

/** Slow twin: the integral of the one's density times the other's share below it (whole shapes), by the trapezium rule. */
function gammaExceedsByIntegral(b: Gamma, a: Gamma): number {
  const STEPS = 20_000;
  const top = (60 + 3 * b.shape) / b.rate;
  const below = (x: number): number => {
    let term = 1;
    let sum = 1;
    for (let k = 1; k < a.shape; k++) {
      term *= (a.rate * x) / k;
      sum += term;
    }
    return 1 - Math.exp(-a.rate * x) * sum;
  };
  let sum = 0;
  for (let i = 1; i <= STEPS; i++) {
    const x = (top * i) / STEPS;
    const logDensity = b.shape * Math.log(b.rate) + (b.shape - 1) * Math.log(x) - b.rate * x - logGamma(b.shape);
    sum += (Math.exp(logDensity) * below(x) * top) / STEPS;
  }
  return sum;
}

it.each(checks.twoPoissonRates.rows)(
  'gives the exact test of %d in %d against %d in %d',
  (k, time, others, otherTime, ...published) => {
    const n = k + others;
    // where the first rate is `ratio` times the other, at least `count` of the n events fall to it
    const atLeast = (count: number, ratio: number): number =>
      count <= 0
        ? 1
        : count > n
          ? 0
          : probabilityGammaExceeds({ shape: n - count + 1, rate: otherTime }, { shape: count, rate: time * ratio });
    const chance = Array.from({ length: n + 1 }, (_, count) => atLeast(count, 1) - atLeast(count + 1, 1));
    const [twoSided, low, high] = published;
    const { tolerance } = checks.twoPoissonRates;
    near(
      chance.filter((p) => p <= chance[k] * (1 + 1e-7)).reduce((sum, p) => sum + p),
      twoSided,
      tolerance,
    );
    near(atLeast(k, low), 0.025, tolerance);
    near(1 - atLeast(k + 1, high), 0.025, tolerance);
  },
);

it('tells how likely one Gamma exceeds another', () => {
  expect(probabilityGammaExceeds({ shape: 1, rate: 1 }, { shape: 1, rate: 3 })).toBeCloseTo(0.75, 12);
  const shape = fc.integer({ min: 1, max: 20 });
  const rate = fc.double({ min: 0.1, max: 30, noNaN: true });
  fc.assert(
    fc.property(shape, rate, shape, rate, (shapeA, rateA, shapeB, rateB) => {
      const [a, b] = [
        { shape: shapeA, rate: rateA },
        { shape: shapeB, rate: rateB },
      ];
      expect(probabilityGammaExceeds(b, a)).toBeCloseTo(gammaExceedsByIntegral(b, a), 3);
      expect(probabilityGammaExceeds(b, a) + probabilityGammaExceeds(a, b)).toBeCloseTo(1, 9);
    }),
    { numRuns: 40 },
  );
});

describe('probability that one rate exceeds another', () => {
  it.each(checks.betaExceeds.rows)('A (%i, %i), B (%i, %i)', (aA, bA, aB, bB, value) =>
    near(probabilityBetaExceeds({ a: aB, b: bB }, { a: aA, b: bA }), value, checks.betaExceeds.tolerance),
  );
  it('agrees with the closed form, and both ways sum to 1', () => {
    const whole = fc.integer({ min: 1, max: 60 });
    fc.assert(
      fc.property(whole, whole, whole, whole, (aA, bA, aB, bB) => {
        const [A, B] = [
          { a: aA, b: bA },
          { a: aB, b: bB },
        ];
        const p = probabilityBetaExceeds(B, A);
        return Math.abs(p - millersSum(aA, bA, aB, bB)) < 1e-9 && Math.abs(p + probabilityBetaExceeds(A, B) - 1) < 1e-9;
      }),
      { numRuns: 60 },
    );
  });
});

describe('log of a sum of exponentials', () => {
  it('survives huge and tiny values, nothing, and NaN', () => {
    expect(logSumExp([1000, 1000])).toBeCloseTo(1000 + Math.log(2), 12);
    expect(logSumExp([-1000, -1001])).toBeCloseTo(-1000 + Math.log1p(Math.exp(-1)), 12);
    expect(logSumExp([])).toBe(Number.NEGATIVE_INFINITY);
    expect(logSumExp([Number.NEGATIVE_INFINITY])).toBe(Number.NEGATIVE_INFINITY);
    expect(logSumExp([0, Number.NaN])).toBeNaN();
  });
});
