import { describe, expect, it } from 'vitest';
import { FIT_KINDS, fitKind, fitOf } from '../../src/diagnosis/evidence/outcome-fit.ts';
import type { OutcomeProbability } from '../../src/shifts/ride-events.ts';

const expected = { clean: 0.9, late: 0.06, missed: 0.03, overshot: 0.01 };
const fits = (probability: OutcomeProbability, cogsToCross = 1, crankRevs: number | null = null): number[] => {
  const kind = fitKind({ probability, expected, cogsToCross, crankRevs });
  expect(kind).toBeLessThan(FIT_KINDS);
  return [...fitOf.subarray(4 * kind, 4 * kind + 4)];
};

describe('how well a shift’s records fit each outcome', () => {
  it('is the same for all of them where the records changed nothing', () => {
    expect(fits(expected)).toEqual([1, 1, 1, 1]);
  });

  it('is what the records say, whatever was expected: posterior over prior', () => {
    // a miss 30 times likelier after the records than before, against clean
    const [clean, , missed] = fits({ clean: 0.5, late: 0.0167, missed: 0.5, overshot: 0.005 });
    expect(missed).toBe(1);
    expect(clean).toBeGreaterThan(1 / 60);
    expect(clean).toBeLessThan(1 / 15);
  });

  it('is the same for all of them where nothing is known', () => {
    expect(fits({ clean: 0, late: 0, missed: 0, overshot: 0 })).toEqual([1, 1, 1, 1]);
  });

  it('never rules an outcome out', () => {
    for (const outcome of ['clean', 'late', 'missed', 'overshot'] as const) {
      const certain = { clean: 0, late: 0, missed: 0, overshot: 0, [outcome]: 1 };
      expect(Math.min(...fits(certain))).toBeGreaterThan(1 / 1000);
    }
  });

  it('takes lateness over several cogs for less of a sign than over one, just late over the whole cassette for none', () => {
    const late = { clean: 0, late: 1, missed: 0, overshot: 0 };
    const [one, two, four] = [1, 2, 4].map((cogs) => fits(late, cogs, 2)[0]);
    expect(one).toBeLessThan(0.01);
    expect(two).toBeGreaterThanOrEqual(one);
    expect(four).toBeGreaterThan(5 * one);
    expect(fits(late, 9, 1.7)[0]).toBe(1);
    expect(fits(late, 9, 4)[0]).toBeLessThan(0.5);
  });
});
