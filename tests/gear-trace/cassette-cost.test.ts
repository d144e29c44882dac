import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { COGS } from '../../src/drivetrain/tooth-limits.ts';
import { cassetteCost, completedCassette, GUESSED_COGS } from '../../src/gear-trace/guess/cassette-cost.ts';

describe('cassetteCost', () => {
  it('is lower for even steps than for uneven ones, close or wide', () => {
    expect(cassetteCost([12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51])).toBeLessThan(
      cassetteCost([12, 13, 16, 17, 21, 26, 28, 36, 38, 47, 51]),
    );
    expect(cassetteCost([11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28])).toBeLessThan(
      cassetteCost([11, 12, 13, 16, 17, 18, 21, 22, 23, 27, 28]),
    );
  });

  it('rises with a cog left out, and with a smallest cog that no cassette begins with', () => {
    const whole = [11, 13, 15, 17, 19, 21, 24, 28, 32];
    expect(cassetteCost(whole)).toBeLessThan(cassetteCost(whole.filter((cog) => cog !== 19)));
    expect(cassetteCost([11, 13, 15, 17])).toBeLessThan(cassetteCost([21, 24, 28, 32]));
  });
});

describe('completedCassette', () => {
  it('puts cogs into gaps that no cassette has, and leaves a whole one as it is', () => {
    expect(completedCassette([11, 13, 15, 19, 21, 24])).toEqual([11, 13, 15, 17, 19, 21, 24]);
    const whole = [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51];
    expect(completedCassette(whole)).toEqual(whole);
  });

  it('holds the cogs given, rises and has enough to be a cassette', () => {
    const cog = fc.integer({ min: GUESSED_COGS.least, max: GUESSED_COGS.most });
    fc.assert(
      fc.property(fc.uniqueArray(cog, { minLength: 1, maxLength: 13 }), (some) => {
        const cogs = some.sort((a, b) => a - b);
        const all = completedCassette(cogs);
        expect(all).toEqual(expect.arrayContaining(cogs));
        expect(all.every((teeth, i) => i === 0 || teeth > all[i - 1])).toBe(true);
        expect(all.length).toBeGreaterThanOrEqual(COGS.least);
      }),
    );
  });
});
