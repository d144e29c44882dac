import fc from 'fast-check';
import { expect, it } from 'vitest';
import { turnedInAll } from '../../src/adjustments/turned-in-all.ts';

const inAll = (...amounts: (number | null)[]): number => turnedInAll(amounts.map((amount) => ({ amount })));

it('adds up what was turned; what was aligned or replaced turns nothing', () => {
  expect([inAll(), inAll(null), inAll(2, null, -0.5)]).toEqual([0, 0, 1.5]);
});

it('is exactly nothing where decimal parts take each other back, in whatever order', () => {
  expect([inAll(0.1, 0.2, -0.3), inAll(-0.8, 0.7, 0.1)]).toEqual([0, 0]);
  const tenths = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 1, maxLength: 12 });
  fc.assert(
    fc.property(tenths, (parts) => {
      const amounts = parts.map((part) => part / 10);
      expect(inAll(...amounts, ...amounts.map((amount) => -amount).reverse())).toBe(0);
      expect(inAll(...amounts)).toBeCloseTo(parts.reduce((total, part) => total + part, 0) / 10, 9);
    }),
  );
});
