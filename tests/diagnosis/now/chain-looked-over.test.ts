import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../../src/adjustments/adjustment.ts';
import { diagnose } from '../../../src/diagnosis/diagnose.ts';
import { notLookedOver } from '../../../src/diagnosis/now/chain-looked-over.ts';
import { cableBike, healthyPattern, patternRide } from '../pattern-ride.ts';

const ride = patternRide({ day: 2, pattern: healthyPattern, drops: [['chainring', 5]] });
const lookAfter = (ms: number): Adjustment => ({
  ...{ at: new Date(ride.startMs + ms).toISOString(), parameter: 'chain', amount: 0, unit: 'done', note: '' },
});
const DAY_MS = 86_400_000;

describe('a chain that came off the chainring', () => {
  it('is looked over before riding on, until that look is logged', () => {
    const step = (adjustments: Adjustment[]) => diagnose({ bike: cableBike, rides: [ride], adjustments }).suggestion;
    expect(step([])).toMatchObject({ inspectFirst: true });
    const after = step([lookAfter(DAY_MS)]);
    expect(after).toMatchObject({ inspectFirst: false });
    expect([after.action, ...after.cautions].join(' ')).not.toMatch(/came off/);
  });

  it('still counts where the look came before it, where nobody knows when it was, and past an end', () => {
    const left = (one: typeof ride, ms: number): number =>
      notLookedOver([one], [lookAfter(ms)])[0].events.chainDrops.length;
    const past = patternRide({ day: 2, pattern: healthyPattern, drops: [['past-largest', 11]] });
    expect([left(ride, DAY_MS), left(ride, -DAY_MS)]).toEqual([0, 1]);
    expect([left({ ...ride, startMs: 0 }, DAY_MS), left(past, DAY_MS)]).toEqual([1, 1]);
  });
});
