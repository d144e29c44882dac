import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import { cableBike, healthyPattern, patternRide } from './pattern-ride.ts';

const at = (day: number): string => new Date(Date.UTC(2026, 4, 1 + day, 18)).toISOString();
const newChain = (day: number): Adjustment => ({
  at: at(day),
  parameter: 'chain',
  amount: null,
  unit: 'done',
  note: '',
});

describe('a chain that went into the spokes on a ride that is not weighed', () => {
  const lost = patternRide({ pattern: healthyPattern, drops: [['past-largest', 8]] });
  const sound = [2, 4, 6, 8, 10].map((day) => patternRide({ day, pattern: healthyPattern }));
  const cautions = (...[rides, adjustments]: [(typeof lost)[], Adjustment[]]) => {
    const { suggestion, weighed } = diagnose({ bike: cableBike, rides, adjustments });
    return { inspectFirst: suggestion.inspectFirst, first: suggestion.cautions[0], drops: weighed.events };
  };
  const warned = { inspectFirst: true, first: expect.stringMatching(/went into the spokes: stop/), drops: 0 };

  it('is warned of where the ride has no date', () => {
    const undated = { ...lost, startMs: 0 };
    expect(cautions([undated], [newChain(1)])).toEqual(warned);
    expect(cautions([undated, ...sound], [newChain(1)])).toEqual(warned);
    expect(cautions(sound, [newChain(1)])).toMatchObject({ inspectFirst: false, drops: 0 });
  });

  it('is warned of where the ride lies too many adjustments back', () => {
    const often = [1, 3, 5, 7, 9].map(newChain);
    expect(cautions([lost, ...sound], often)).toEqual(warned);
  });
});
