import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { troubleRates as expectedShifts, type ShiftLikelihood } from '../../src/shifts/outcomes/trouble-rates.ts';

const shift = (cog: number, ratio: number): ShiftLikelihood => ({ cog, clean: 1, slow: 1, trouble: ratio });
const many = (count: number, cog: number, ratio: number): ShiftLikelihood[] =>
  Array.from({ length: count }, () => shift(cog, ratio));

const troubleRates = (shifts: readonly ShiftLikelihood[]): number[] => expectedShifts(shifts).map(({ rate }) => rate);

describe('expected share of trouble', () => {
  it('is small where every shift was surely clean, and near the share seen where many surely were not', () => {
    expect(Math.max(...troubleRates(many(200, 3, 0.01)))).toBeLessThan(0.01);
    const rates = troubleRates([...many(140, 3, 1e-6), ...many(60, 3, 1e6)]);
    expect(rates[0]).toBeGreaterThan(0.27);
    expect(rates[0]).toBeLessThan(0.33);
  });

  it('stays small where many shifts are doubtful and none is sure', () => {
    // Records that fit trouble ten times better come about once in ten on shifts that were clean, at the very most.
    const rates = troubleRates([...many(190, 3, 0.1), ...many(10, 3, 10)]);
    expect(Math.max(...rates)).toBeLessThan(0.05);
  });

  it('of a cog that goes wrong alone is its own, and leaves the others as they are', () => {
    const shifts = [0, 1, 2, 3].flatMap((cog) => many(30, cog, 0.01)).concat(many(12, 4, 1000), many(3, 4, 0.01));
    const rates = troubleRates(shifts);
    expect(rates[0]).toBeLessThan(0.05);
    expect(rates[shifts.length - 1]).toBeGreaterThan(0.6);
  });

  it('lies nearer to the middle than shifts that err each by itself would have it', () => {
    // likelihoods as they stand give 0.80 and 0.0135: many sensors that err alike tell less
    const failing = troubleRates([...many(20, 3, 20), ...many(4, 3, 0.05)])[0];
    const clean = troubleRates(many(20, 3, 0.3))[0];
    expect([failing > 0.7, failing < 0.77, clean > 0.016, clean < 0.03]).toEqual([true, true, true, true]);
  });

  it('of a shift does not hang on the shift itself', () => {
    const others = [...many(40, 3, 0.05), ...many(4, 3, 300)];
    const sure = troubleRates([...others, shift(3, 1e9)]).at(-1) as number;
    const clean = troubleRates([...others, shift(3, 1e-9)]).at(-1) as number;
    expect(sure).toBeCloseTo(clean, 9);
  });

  it('lies between 0 and 1 whatever the records say', () => {
    const ratio = fc.double({ min: -12, max: 12, noNaN: true }).map((power) => 10 ** power);
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.integer({ min: 0, max: 12 }), ratio), { minLength: 1 }), (list) => {
        const rates = troubleRates(list.map(([cog, value]) => shift(cog, value)));
        return rates.every((rate) => rate > 0 && rate < 1);
      }),
    );
  });

  it('stays small on a cog where clean shifts are slow, and is not hidden by that where shifts came late', () => {
    const elsewhere = [0, 1, 2, 3].flatMap((cog) => many(15, cog, 0.02));
    // each a little better as a late one, much better as a slow clean one
    const slow = Array.from({ length: 14 }, () => ({ cog: 4, clean: 1, slow: 3, trouble: 2.5 }));
    const found = expectedShifts([...elsewhere, ...slow]);
    expect(found[found.length - 1].rate).toBeLessThan(0.1);
    expect(found[found.length - 1].slow).toBeGreaterThan(0.8);
    expect(found[0].slow).toBeLessThan(0.2);
    const late = slow.map((one) => ({ ...one, trouble: 30 }));
    expect(expectedShifts([...elsewhere, ...late])[found.length - 1].rate).toBeGreaterThan(0.5);
  });
});
