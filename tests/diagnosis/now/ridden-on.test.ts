import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../../src/adjustments/adjustment.ts';
import { diagnose } from '../../../src/diagnosis/diagnose.ts';
import { riddenOn } from '../../../src/diagnosis/now/ridden-on.ts';
import { healthyPattern } from '../pattern-ride.ts';
import { adjustedBike, slow } from './adjusted-bikes.ts';

const entry = (at: string, parameter: Adjustment['parameter'], amount: number | null = null): Adjustment => ({
  at,
  parameter,
  amount,
  unit: amount === null ? 'done' : 'clicks',
  note: '',
});

describe('adjustments that were ridden on', () => {
  const rides = [{ startMs: Date.parse('2026-05-01T07:00:00Z'), durationS: 3600 }];
  const clicks = entry('2026-04-30T07:00:00Z', 'cable-tension', 3);
  const later = entry('2026-05-03T07:00:00Z', 'chain');

  it('leave out a part replaced since, where it has nothing to do with the cause', () => {
    expect(riddenOn([clicks, later], rides, 'cable-tension-low')).toEqual([clicks]);
    expect(riddenOn([clicks, later], rides, 'worn-drivetrain')).toEqual([clicks, later]);
    const wheel = entry('2026-05-03T07:00:00Z', 'wheel');
    expect(riddenOn([clicks, wheel], rides, 'low-limit-tight')).toEqual([clicks, wheel]);
    expect(riddenOn([clicks, wheel], rides, 'hanger-bent')).toEqual([clicks]);
  });

  it('keep what was turned since, and what a ride came after', () => {
    const turned = entry('2026-05-03T07:00:00Z', 'cable-tension', -1);
    expect(riddenOn([clicks, turned], rides, 'cable-tension-low')).toEqual([clicks, turned]);
    const before = entry('2026-04-30T09:00:00Z', 'cassette');
    expect(riddenOn([clicks, before], rides, 'cable-tension-low')).toEqual([clicks, before]);
  });

  it('leave out a chain ridden since, which sets nothing anew', () => {
    const before = entry('2026-04-30T09:00:00Z', 'chain');
    expect(riddenOn([clicks, before], rides, 'cable-tension-low')).toEqual([clicks]);
    expect(riddenOn([clicks, before], rides, 'worn-drivetrain')).toEqual([clicks, before]);
  });

  it('are none where such a part is all that is logged', () => {
    expect(riddenOn([later], rides, 'cable-tension-low')).toEqual([]);
    expect(riddenOn([later], rides, 'worn-drivetrain')).toEqual([later]);
  });

  it('so a new chain after a fault leaves its step as it was', () => {
    const ridden = adjustedBike([{ pattern: slow('to-larger') }, { pattern: slow('to-larger') }]);
    const chain = [entry('2027-01-01T07:00:00Z', 'chain')];
    const [before, since] = [ridden, { ...ridden, adjustments: chain }].map((bike) => diagnose(bike));
    expect(since.now.setting).toBe('same');
    expect(since.suggestion.action).toBe(before.suggestion.action);
    expect(since.suggestion.parameter).toBe('cable-tension');
  });

  it('so a new chain after a cure leaves it a cure', () => {
    const cured = adjustedBike([
      { pattern: slow('to-larger') },
      { pattern: healthyPattern, after: ['cable-tension', 4] },
    ]);
    const renewed = { ...cured, adjustments: [...cured.adjustments, entry('2027-01-01T07:00:00Z', 'chain')] };
    for (const bike of [cured, renewed]) {
      const { now, suggestion } = diagnose(bike);
      expect([now.setting, suggestion.parameter]).toEqual(['cured', 'none']);
    }
  });
});
