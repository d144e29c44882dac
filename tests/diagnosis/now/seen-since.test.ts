import { describe, expect, it } from 'vitest';
import { seenSince } from '../../../src/diagnosis/now/seen-since.ts';
import { cableBike, patternRide, slowToLarger } from '../pattern-ride.ts';
import { lost, turned } from './adjusted-bikes.ts';

const ride = (day: number, drops = 0) =>
  patternRide({ day, pattern: slowToLarger, drops: lost('past-largest', drops) });
const undated = { ...ride(0, 1), startMs: 5_000 };

describe('seenSince', () => {
  it('counts what came after the last adjustment, of a ride in which it was made only the rest', () => {
    const adjustments = [turned(0, ['cable-tension', 1]), turned(3, ['cable-tension', 1])];
    const { last, seen, lost: chains } = seenSince([ride(0, 2), ride(2, 4), ride(4, 1)], adjustments, cableBike);
    expect(last?.at).toBe(adjustments[1].at);
    expect(seen.all.shifts).toBe(264);
    expect(chains('past-largest')).toBe(1);
    const middle = [{ ...adjustments[0], at: new Date(ride(2).startMs + 1000 * 600).toISOString() }];
    const rest = seenSince([ride(2, 4)], middle, cableBike);
    expect(rest.seen.all.shifts).toBeGreaterThan(0);
    expect(rest.seen.all.shifts).toBeLessThan(264);
    expect(rest.lost('past-largest')).toBe(2);
  });

  it('counts a chain that was lost on a ride without a date, but no shift of it', () => {
    const { seen, lost: chains } = seenSince([ride(0, 2), undated], [turned(1, ['low-limit', -1])], cableBike);
    expect([seen.all.shifts, chains('past-largest'), chains('past-smallest')]).toEqual([0, 1, 0]);
  });

  it('counts all rides where nothing was adjusted', () => {
    const { last, seen, lost: chains } = seenSince([ride(0, 2), undated], [], cableBike);
    expect([last, seen.all.shifts, chains('past-largest')]).toEqual([null, 528, 3]);
  });
});
