import { describe, expect, it } from 'vitest';
import { nearNormalBelow } from '../../src/numeric/near-normal.ts';

describe('the curve close to the normal distribution', () => {
  // standard normal table
  it.each([
    [0, 0.5],
    [0.5, 0.6915],
    [1, 0.8413],
    [1.5, 0.9332],
    [2, 0.9772],
    [3, 0.9987],
  ])('below %f deviations lies %f, within 0.01', (z, share) => {
    expect(Math.abs(nearNormalBelow(z) - share)).toBeLessThan(0.01);
    expect(nearNormalBelow(z) + nearNormalBelow(-z)).toBeCloseTo(1, 12);
  });
});
