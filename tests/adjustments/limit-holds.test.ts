import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LOOSE_LOSES, limitHolds, triesStillNeeded } from '../../src/adjustments/limit-holds.ts';

/** The same by many random rates instead of a grid. */
function slowTwin(before: { reached: number; lost: number }, since: number): number {
  const { low, high } = LOOSE_LOSES;
  let [all, kept] = [0, 0];
  for (let i = 0; i < 200_000; i++) {
    const rate = low * (high / low) ** ((i * 0.6180339887498949) % 1);
    const weight = rate ** before.lost * (1 - rate) ** (before.reached - before.lost);
    all += weight;
    kept += weight * (1 - rate) ** since;
  }
  return all / (all + kept);
}

const counts = fc
  .record({ reached: fc.integer({ min: 1, max: 80 }), lost: fc.integer({ min: 0, max: 6 }) })
  .map(({ reached, lost }) => ({ reached, lost: Math.min(reached, lost) }));

describe('whether a limit holds', () => {
  it('agrees with a slow twin', () => {
    for (const [reached, lost, since] of [
      [2, 1, 38],
      [2, 1, 1],
      [40, 3, 12],
      [14, 9, 5],
    ])
      expect(limitHolds({ reached, lost }, { reached: since, lost: 0 })).toBeCloseTo(
        slowTwin({ reached, lost }, since),
        3,
      );
    expect(limitHolds({ reached: 2, lost: 1 }, { reached: 38, lost: 0 })).toBeCloseTo(0.96, 2);
  });

  it('is as likely as not before any shift, rises with each that the chain stays on in, and is out with one lost', () => {
    fc.assert(
      fc.property(counts, fc.integer({ min: 0, max: 200 }), (before, since) => {
        const holds = (reached: number): number => limitHolds(before, { reached, lost: 0 });
        expect(holds(0)).toBeCloseTo(0.5, 12);
        expect(holds(since + 1)).toBeGreaterThan(holds(since));
        expect(limitHolds(before, { reached: since + 1, lost: 1 })).toBe(0);
      }),
    );
  });

  it('takes the limit for loose from any of the shifts on that kept the chain before it was first lost, or from all of them', () => {
    const since = { reached: 30, lost: 0 };
    const holds = (keptFirst: number): number => limitHolds({ reached: 60, lost: 4, keptFirst }, since);
    expect(holds(0)).toBe(limitHolds({ reached: 60, lost: 4 }, since));
    expect(holds(40)).toBeGreaterThan(holds(0));
    // and never surer than if none of them counted
    expect(holds(40)).toBeLessThan(limitHolds({ reached: 20, lost: 4 }, since));
    // more kept and lost than reached: a lost chain left its shift unjudged
    expect(limitHolds({ reached: 41, lost: 4, keptFirst: 40 }, since)).toBe(
      limitHolds({ reached: 44, lost: 4, keptFirst: 40 }, since),
    );
    // by its slow twin: each beginning by itself
    const { low, high } = LOOSE_LOSES;
    let [all, kept] = [0, 0];
    for (let i = 0; i < 4000; i++) {
      const rate = low * (high / low) ** ((i + 0.5) / 4000);
      let first = 0.5 * (1 - rate) ** 40;
      for (let loose = 0; loose <= 40; loose++) first += (0.5 / 41) * (1 - rate) ** loose;
      const weight = rate ** 4 * (1 - rate) ** 16 * first;
      all += weight;
      kept += weight * (1 - rate) ** since.reached;
    }
    expect(holds(40)).toBeCloseTo(all / (all + kept), 3);
  });

  it('needs the more shifts the seldomer the chain was lost', () => {
    const needed = (reached: number, lost: number) =>
      triesStillNeeded({ reached, lost }, { reached: 0, lost: 0 }, 0.95) ?? Number.POSITIVE_INFINITY;
    expect(needed(2, 1)).toBeLessThan(needed(50, 1));
    expect(needed(10, 5)).toBeLessThan(needed(10, 1));
    const [before, tried] = [{ reached: 2, lost: 1 }, 7];
    const whole = needed(2, 1);
    expect(triesStillNeeded(before, { reached: tried, lost: 0 }, 0.95)).toBe(whole - tried);
    expect(limitHolds(before, { reached: whole, lost: 0 })).toBeGreaterThanOrEqual(0.95);
    expect(limitHolds(before, { reached: whole - 1, lost: 0 })).toBeLessThan(0.95);
    expect(triesStillNeeded(before, { reached: 1, lost: 1 }, 0.95)).toBeNull();
  });
});
