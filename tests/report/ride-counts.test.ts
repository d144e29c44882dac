import { describe, expect, it } from 'vitest';
import { ridesBefore } from '../../src/report/chart-data/rides-before.ts';
import { countEvents, sumCounts } from '../../src/report/ride-counts.ts';
import { rideTrouble } from '../../src/report/ride-trouble.ts';

const shifts = (['clean', 'clean', 'late', 'missed', 'overshot', 'unjudged'] as const).map((outcome) => ({ outcome }));
const counts = countEvents({ shifts, ghostShifts: [0, 1], chainDrops: [0], skips: [0, 1, 2] });

describe('counts of a ride', () => {
  it('are those of its lists, and those of several rides their sums', () => {
    const one = {
      shifts: 6,
      clean: 2,
      late: 1,
      missed: 1,
      overshot: 1,
      unjudged: 1,
      ghostShifts: 2,
      chainDrops: 1,
      skips: 3,
    };
    expect(counts).toEqual(one);
    expect(sumCounts([{ counts }, { counts }])).toEqual(
      Object.fromEntries(Object.entries(one).map(([name, count]) => [name, 2 * count])),
    );
    expect(Object.values(sumCounts([]))).toEqual(Array(9).fill(0));
  });

  it('give the rate of trouble among the judged shifts', () => {
    const { shifts: judged, troubleRate, low, high } = rideTrouble(counts);
    expect([judged, troubleRate]).toEqual([5, 0.6]);
    expect(low).toBeLessThan(0.6);
    expect(high).toBeGreaterThan(0.6);
    expect(rideTrouble(sumCounts([]))).toEqual({ shifts: 0, troubleRate: null, low: 0, high: 1 });
  });
});

it('a mark stands after the rides that began before it', () => {
  const starts = ['2026-04-10T07:00:00Z', '2026-04-12T20:30:00+02:00', '2026-04-14T06:30:00Z'];
  expect(ridesBefore(starts, '2026-04-12T18:30:00Z')).toBe(1);
  expect(ridesBefore(starts, '2026-04-12T18:30:01Z')).toBe(2);
});
