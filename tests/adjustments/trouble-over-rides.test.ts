import { describe, expect, it } from 'vitest';
import { cameBack } from '../../src/adjustments/came-back.ts';
import { cancelledOut } from '../../src/adjustments/cancelled-out.ts';
import { probabilityBetter } from '../../src/adjustments/compare-rates.ts';
import { wentOnGrowing } from '../../src/adjustments/went-on-growing.ts';
import { probabilityBetaExceeds } from '../../src/numeric/probability-beta-exceeds.ts';

/** Rides of 100 judged shifts of which so many went wrong. */
const rides = (...trouble: number[]) => trouble.map((wrong, i) => ({ startMs: i, trouble: wrong, shifts: 100 }));

describe('trouble that went on growing over an adjustment', () => {
  it('grew before it and grows over all rides, with no step beside that', () => {
    const grown = wentOnGrowing(rides(5, 12, 20), rides(28, 36));
    expect(grown).toMatchObject({ firstBefore: { trouble: 5 }, lastBefore: { trouble: 20 } });
    expect(grown).toMatchObject({ firstAfter: { trouble: 28 }, lastAfter: { trouble: 36 } });
  });

  it('is none where it began to grow only after it', () => {
    expect(wentOnGrowing(rides(10, 9, 11), rides(11, 20, 34))).toBeNull();
  });

  it('is none where two rides alone lie before it', () => {
    expect(wentOnGrowing(rides(5, 20), rides(35, 50))).toBeNull();
  });
});

describe('trouble that came back after an adjustment', () => {
  it('is at least half of what it was before', () => {
    expect(cameBack(rides(60), rides(0, 0, 35))).toMatchObject({ fromMs: 2, since: { trouble: 35 } });
    expect(cameBack(rides(60), rides(0, 0, 20))).toBeNull();
  });
});

it('rates of which more than half go wrong are compared by the uniform prior, and by none beyond it', () => {
  const better = probabilityBetter({ trouble: 8, shifts: 10 }, { trouble: 5, shifts: 10 });
  expect(better).toBeCloseTo(probabilityBetaExceeds({ a: 9, b: 3 }, { a: 6, b: 6 }), 12);
});

it('what is taken back at one moment of a ride was never ridden so', () => {
  const turned = (amount: number) => ({
    ...({ at: '2026-05-01T08:30:00Z', parameter: 'cable-tension', amount, unit: 'clicks', note: '' } as const),
  });
  const ride = { startMs: Date.parse('2026-05-01T08:00:00Z'), durationS: 3600 };
  expect(cancelledOut([turned(2), turned(-2)], [ride]).size).toBe(2);
});
