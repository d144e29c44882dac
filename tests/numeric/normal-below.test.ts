import fc from 'fast-check';
import { expect, it } from 'vitest';
import { normalBelow } from '../../src/numeric/normal-below.ts';

it('is the normal distribution (values of the usual tables, from memory: quantiles of 90, 95, 97.5, 99 and 99.9 %)', () => {
  for (const [z, below] of [
    [0, 0.5],
    [1.281552, 0.9],
    [1.644854, 0.95],
    [1.959964, 0.975],
    [2.326348, 0.99],
    [3.090232, 0.999],
    [-1.644854, 0.05],
  ])
    expect(normalBelow(z)).toBeCloseTo(below, 6);
});

it('rises, and is as much above z as below -z', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -8, max: 8, noNaN: true }),
      fc.double({ min: 0.01, max: 2, noNaN: true }),
      (z, step) => {
        expect(normalBelow(z) + normalBelow(-z)).toBeCloseTo(1, 6);
        expect(normalBelow(z + step)).toBeGreaterThanOrEqual(normalBelow(z) - 1.5e-7);
      },
    ),
  );
});
