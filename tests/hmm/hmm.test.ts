import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { forwardBackward } from '../../src/hmm/forward-backward.ts';
import published from '../checks/hidden-markov.json' with { type: 'json' };
import { denseTransition } from './dense-transition.ts';

const { start, transition, emission } = published.model;
const states = start.length;

/** Probability of what was observed, along one path where it is given: every other state is then ruled out at each step. */
function probabilityOf(observations: readonly number[], path: readonly number[] | null = null): number {
  const rows = observations.flatMap((o, t) =>
    emission.map((row, state) => (path && path[t] !== state ? Number.NEGATIVE_INFINITY : Math.log(row[o]))),
  );
  const { logLikelihood } = forwardBackward(
    Float32Array.from(rows),
    denseTransition(Float64Array.from(transition.flat()), states),
    Float64Array.from(start),
  );
  return Math.exp(logLikelihood);
}

const off = (got: number, wanted: number): number => Math.abs(got - wanted);

describe(`the worked example: ${published.source}`, () => {
  const allPaths = [0, 1].flatMap((a) => [0, 1].flatMap((b) => [0, 1].map((c) => [a, b, c])));

  it.each(published.paths)(
    'gives $observations along $path the probability $probability, more than along any other',
    ({ observations, path, probability }) => {
      expect(off(probabilityOf(observations, path), probability)).toBeLessThan(published.tolerance);
      const likeliest = Math.max(...allPaths.map((one) => probabilityOf(observations, one)));
      expect(off(likeliest, probability)).toBeLessThan(published.tolerance);
    },
  );

  it('sums all paths to the published forward total', () => {
    const { observations, total } = published.forward;
    expect(off(probabilityOf(observations), total)).toBeLessThan(published.tolerance);
    const summed = allPaths.reduce((sum, path) => sum + probabilityOf(observations, path), 0);
    expect(off(summed, total)).toBeLessThan(published.tolerance);
  });
});

/** Slow twin: every path counted one by one. */
function enumerate(logEmission: number[][], matrix: number[][], initial: number[]): number[][] {
  const steps = logEmission.length;
  const count = initial.length;
  const sums = logEmission.map(() => new Array<number>(count).fill(0));
  for (let code = 0; code < count ** steps; code++) {
    const path = Array.from({ length: steps }, (_, t) => Math.floor(code / count ** t) % count);
    let weight = initial[path[0]];
    path.forEach((s, t) => {
      weight *= Math.exp(logEmission[t][s]) * (t > 0 ? matrix[path[t - 1]][s] : 1);
    });
    path.forEach((s, t) => {
      sums[t][s] += weight;
    });
  }
  return sums.map((row) => {
    const total = row.reduce((a, b) => a + b);
    return row.map((value) => value / total);
  });
}

describe('forwardBackward', () => {
  const unit = fc.double({ min: 0.05, max: 1, noNaN: true });
  const row = fc.array(unit, { minLength: 3, maxLength: 3 }).map((r) => {
    const total = r.reduce((a, b) => a + b);
    return r.map((value) => value / total);
  });
  it('agrees with the enumeration of all paths, and each row sums to 1', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(fc.double({ min: -6, max: 2, noNaN: true }), { minLength: 3, maxLength: 3 }), {
          minLength: 1,
          maxLength: 5,
        }),
        fc.array(row, { minLength: 3, maxLength: 3 }),
        row,
        (logEmission, matrix, initial) => {
          const { probability } = forwardBackward(
            Float32Array.from(logEmission.flat()),
            denseTransition(Float64Array.from(matrix.flat()), 3),
            Float64Array.from(initial),
          );
          const expected = enumerate(logEmission, matrix, initial).flat();
          expected.forEach((value, i) => {
            expect(probability[i]).toBeCloseTo(value, 4);
          });
        },
      ),
      { numRuns: 60, seed: 11 },
    );
  });

  it('stays finite over 20,000 steps and takes a row ruled out whole as missing', () => {
    const logEmission = new Float32Array(40_000).fill(-900);
    logEmission.fill(Number.NEGATIVE_INFINITY, 2000, 2002);
    const matrix = Float64Array.of(0.9, 0.1, 0.2, 0.8);
    const { probability, logLikelihood } = forwardBackward(
      logEmission,
      denseTransition(matrix, 2),
      Float64Array.of(1, 0),
    );
    expect(Number.isFinite(logLikelihood)).toBe(true);
    // the chain's stationary distribution, 2/3 and 1/3
    expect(probability[30_000]).toBeCloseTo(2 / 3, 3);
  });

  it('gives nothing for nothing', () => {
    const empty = forwardBackward(new Float32Array(0), denseTransition(Float64Array.of(1), 1), Float64Array.of(1));
    expect(empty).toEqual({ probability: new Float32Array(0), logLikelihood: 0 });
  });
});
