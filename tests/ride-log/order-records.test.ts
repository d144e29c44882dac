import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { longestRising } from '../../src/ride-log/longest-rising.ts';
import { orderRecords } from '../../src/ride-log/order-records.ts';

/** Length of the longest subsequence that never falls, by trying each end against all before it: slow and plain. */
function slowLength(values: readonly number[]): number {
  const best = values.map(() => 1);
  values.forEach((value, i) => {
    for (let k = 0; k < i; k++) if (values[k] <= value) best[i] = Math.max(best[i], best[k] + 1);
  });
  return Math.max(0, ...best);
}

test('the longest rising sequence rises, stands in order, and is as long as any', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 30 }), { maxLength: 60 }), (values) => {
      const order = Uint32Array.from(values.keys());
      const rising = [...longestRising(Float64Array.from(values), order)];
      expect(rising.every((index, i) => i === 0 || index > rising[i - 1])).toBe(true);
      expect(rising.every((index, i) => i === 0 || values[index] >= values[rising[i - 1]])).toBe(true);
      expect(rising.length).toBe(slowLength(values));
    }),
    { numRuns: 300, seed: 20_260_605 },
  );
});

describe('records out of order', () => {
  const YEAR_MS = 365 * 86_400_000;
  const seconds = (from: number, count: number): number[] => Array.from({ length: count }, (_, i) => (from + i) * 1000);
  const order = (times: number[], starts = [0]) => orderRecords(Float64Array.from(times), starts);

  test('nothing to do', () => {
    const { order: kept, backward, clockJumps } = order(seconds(0, 50));
    expect([...kept]).toEqual([...Array(50).keys()]);
    expect([backward, clockJumps]).toEqual([0, 0]);
  });

  test('one record an hour ahead costs itself', () => {
    const times = seconds(0, 50);
    times[20] += 3_600_000;
    const { order: kept, backward } = order(times);
    expect(backward).toBe(1);
    expect([...kept]).not.toContain(20);
  });

  test('a year: one record, the last record, the beginning before the clock was set', () => {
    for (const at of [0, 20, 49]) {
      const times = seconds(0, 50);
      times[at] += YEAR_MS;
      const { order: kept, clockJumps } = order(times);
      expect(clockJumps).toBe(1);
      expect(kept.length).toBe(49);
    }
    const unset = [...seconds(0, 10), ...seconds(1e9, 40)];
    expect(order(unset)).toMatchObject({ clockJumps: 10, backward: 0 });
  });

  test('a tour of days with nights and a rest day stays whole, a week of rest parts it', () => {
    const day = 86_400;
    const tour = [0, 1, 3, 4].flatMap((night) => seconds(night * day, 100));
    expect(order(tour)).toMatchObject({ clockJumps: 0, backward: 0 });
    const parted = [...seconds(0, 100), ...seconds(day, 100), ...seconds(9 * day, 60)];
    expect(order(parted)).toMatchObject({ clockJumps: 60, backward: 0 });
    const straggler = [...seconds(0, 100), 2 * day * 1000, ...seconds(3 * day, 100)];
    expect(order(straggler)).toMatchObject({ clockJumps: 1, backward: 0 });
  });

  test('a clock set back by most of the ride costs one of the two that tell the same time, and shuffles none', () => {
    const times = [...seconds(0, 500), ...seconds(100, 500)];
    const { order: kept, backward, sorted } = order(times);
    expect(sorted).toBe(false);
    expect(backward).toBe(times.length - kept.length);
    expect(kept.length).toBeGreaterThanOrEqual(600);
    const goesOnElsewhere = [...kept].filter((index, i) => i > 0 && index !== kept[i - 1] + 1);
    expect(goesOnElsewhere.length).toBe(1);
  });

  test('a clock set back to before the start costs the time that is told twice', () => {
    const times = [...seconds(3000, 2000), ...seconds(1400, 2000)];
    const { order: kept, backward, sorted } = order(times);
    expect(sorted).toBe(true);
    expect([backward, kept.length]).toEqual([400 - 1, times.length - 400 + 1]);
    const goesOnElsewhere = [...kept].filter((index, i) => i > 0 && index !== kept[i - 1] + 1);
    expect(goesOnElsewhere.length).toBe(1);
  });

  test('parts in another order, a file read backwards and one without any order are sorted', () => {
    const parts = [...seconds(400, 200), ...seconds(0, 400)];
    expect(order(parts)).toMatchObject({ sorted: true, backward: 0 });
    expect(order(seconds(0, 300).reverse())).toMatchObject({ sorted: true, backward: 0 });
    const shuffled = seconds(0, 300).map((_, i) => ((i * 97) % 300) * 1000);
    expect([...order(shuffled).order].map((i) => shuffled[i])).toEqual(seconds(0, 300));
  });

  test('a clock set back by 30 s costs 30 records', () => {
    const times = [...seconds(0, 500), ...seconds(470, 500)];
    const { order: kept, backward } = order(times);
    expect(backward).toBeGreaterThanOrEqual(28);
    expect(backward).toBeLessThanOrEqual(30);
    expect(kept.length + backward).toBe(1000);
  });

  test('a file written from end to beginning is turned round', () => {
    const { order: kept, backward } = order(seconds(0, 50).reverse());
    expect(backward).toBe(0);
    expect([...kept]).toEqual([...Array(50).keys()].reverse());
  });

  test('runs are sorted by their beginning', () => {
    const { order: kept, backward } = order([...seconds(100, 20), ...seconds(0, 20)], [0, 20]);
    expect(backward).toBe(0);
    expect([...kept]).toEqual([...Array(20).keys()].map((i) => i + 20).concat([...Array(20).keys()]));
  });
});
