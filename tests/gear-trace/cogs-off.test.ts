import { describe, expect, it } from 'vitest';
import { cogsOff } from '../../src/gear-trace/disagreement/cogs-off.ts';

const bike = { chainrings: [50], cassette: [11, 12, 13, 14, 15, 17, 19, 21, 24, 27, 30] };

/** Developments with the chain so many cogs from the one asked for, on a wheel of 2100 mm; every cog for a minute. */
const peaks = (off: number, cogs = bike.cassette.length) =>
  bike.cassette.map((_, cog) => {
    const on = Math.min(Math.max(cog + off, 0), bike.cassette.length - 1);
    return { centre: Math.log((2.1 * 50) / bike.cassette[on]), spread: 0.004, count: cog < cogs ? 60 : 0 };
  });

describe('the teeth that a ride fits', () => {
  it.each([0, -1, 1] as const)('are those of the chain %i cogs from the one asked for, with its own wheel', (off) => {
    const fits = cogsOff(peaks(off), bike);
    expect(fits.map(({ cogs }) => cogs)).toEqual([0, -1, 1]);
    const [best, next] = [...fits].sort((a, b) => a.misfit - b.misfit);
    expect(best.cogs).toBe(off);
    expect(best.rolloutMm).toBeCloseTo(2100, 6);
    expect(best.misfit).toBeCloseTo(0, 9);
    expect(next.misfit).toBeGreaterThan(0.01);
  });

  it('are not told by few cogs: they lie on any ladder', () => {
    expect(cogsOff(peaks(-1, 5), bike)).toHaveLength(3);
    expect(cogsOff(peaks(-1, 4), bike)).toEqual([]);
  });
});
