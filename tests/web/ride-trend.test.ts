import { describe, expect, it } from 'vitest';
import type { TrendPoint } from '../../web/api/answers.ts';
import { rideTrendPlan } from '../../web/charts/ride-trend.ts';

const ride = (at: string): TrendPoint => ({ rideId: at, at, shifts: 40, troubleRate: 0.1, low: 0.05, high: 0.2 });

describe('the trend ride by ride', () => {
  it('places an adjustment by its moment, however its time is written', () => {
    const points = ['2026-05-03T20:00:00.000Z', '2026-05-03T23:00:00.000Z'].map(ride);
    const before = (at: string): number =>
      rideTrendPlan({
        points,
        adjustments: [{ at, words: 'turned' }],
        summary: '',
        fileName: '',
      }).table.rows.findIndex((row) => row.at(-1) !== null);
    for (const at of ['2026-05-03T22:30:00Z', '2026-05-04T00:30:00+02:00', '2026-05-03T22:30Z', '2026-05-03T23:00:00Z'])
      expect(before(at)).toBe(1);
  });
});
