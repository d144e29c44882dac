import { describe, expect, it } from 'vitest';
import {
  cleanDensity,
  cleanOrLate,
  evenDensity,
  lateDensity,
  REV_STEP,
  REVS,
  usualDensity,
  veryLateDensity,
} from '../../src/shifts/stories/turn-chances.ts';
import { CLEAN_WITHIN_REVS, LATE_WITHIN_REVS } from '../../src/shifts/turn-limits.ts';

describe('chances of the number of turns', () => {
  it.each([
    ['clean', cleanDensity, 0, CLEAN_WITHIN_REVS],
    ['late', lateDensity, CLEAN_WITHIN_REVS, LATE_WITHIN_REVS],
    ['very late', veryLateDensity, LATE_WITHIN_REVS, REVS * REV_STEP],
  ] as const)('%s: sum to 1 between their limits', (_, chances, from, to) => {
    expect(chances.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
    chances.forEach((chance, k) => {
      const revs = (k + 0.5) * REV_STEP;
      if (revs < from || revs > to) expect(chance).toBe(0);
      else expect(chance).toBeGreaterThan(0);
    });
  });

  it('hold what the contract says: clean within 1.5 turns, late within 5', () => {
    expect([CLEAN_WITHIN_REVS, LATE_WITHIN_REVS]).toEqual([1.5, 5]);
    const mean = cleanDensity.reduce((sum, chance, k) => sum + chance * (k + 0.5) * REV_STEP, 0);
    expect(mean).toBeGreaterThan(0.2);
    expect(mean).toBeLessThan(1);
  });

  it.each([
    ['of any shift', evenDensity],
    ['of a shift to another cog', cleanOrLate(0.7)],
    ['of a slow bike', usualDensity(1.8, 0)],
  ])('%s: sum to 1', (_, chances) => {
    expect(chances.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
  });

  it('of a mixture: as many clean as it says', () => {
    const within = CLEAN_WITHIN_REVS / REV_STEP;
    expect(
      cleanOrLate(0.3)
        .subarray(0, within)
        .reduce((a, b) => a + b, 0),
    ).toBeCloseTo(0.3, 12);
  });
});
