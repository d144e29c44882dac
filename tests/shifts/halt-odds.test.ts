import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { haltOdds } from '../../src/shifts/drops/halt-odds.ts';

const elsewhere = { shifts: 200, halts: 1 };

describe('haltOdds', () => {
  it('holds one halt among some shifts for chance, and three of ten for a chain that is thrown time and again', () => {
    expect(haltOdds('smallest', { shifts: 10, halts: 1 }, elsewhere)).toBeLessThan(0.2);
    expect(haltOdds('smallest', { shifts: 10, halts: 3 }, elsewhere)).toBeGreaterThan(5);
  });

  // beyond half of the shifts the odds are so high that the few values which stand for the lost share no longer order them
  it('rises with the halts and falls with the shifts that none followed, up to half of them', () => {
    const odds = (shifts: number, halts: number): number => haltOdds('smallest', { shifts, halts }, elsewhere);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 20 }), fc.integer({ min: 1, max: 60 }), (halts, more) => {
        const shifts = 2 * halts + more;
        expect(odds(shifts, halts + 1)).toBeGreaterThan(odds(shifts, halts));
        expect(odds(shifts + 1, halts)).toBeLessThan(odds(shifts, halts));
      }),
    );
  });

  it('allows for the habits of a rider who halts after other shifts as well', () => {
    const here = { shifts: 12, halts: 3 };
    const seldom = haltOdds('largest', here, { shifts: 100, halts: 1 });
    const often = haltOdds('largest', here, { shifts: 100, halts: 20 });
    expect(seldom).toBeGreaterThan(5 * often);
    expect(often).toBeLessThan(0.2);
  });

  it('needs more of a halt on the largest cog, where many stops are prepared, than on the smallest', () => {
    const here = { shifts: 12, halts: 2 };
    expect(haltOdds('largest', here, elsewhere)).toBeLessThan(haltOdds('smallest', here, elsewhere) / 5);
  });

  it('can be worked out by hand where nothing but the one shift was seen', () => {
    // a lost chain on the hundred-and-fortieth ride (0.007) in a quarter of its shifts, against a halt that was meant in 0.006 of them
    const odds = haltOdds('smallest', { shifts: 1, halts: 1 }, { shifts: 0, halts: 0 });
    expect(odds).toBeGreaterThan((0.007 * 0.25) / 0.006 / 1.3);
    expect(odds).toBeLessThan(((0.007 * 0.25) / 0.006) * 1.3);
  });
});
