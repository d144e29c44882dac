import { describe, expect, it } from 'vitest';
import { placeOf, recordedGears } from '../../src/gear-trace/commands/recorded-gears.ts';
import { gearRecords } from './made-ride.ts';

const rear = (rows: Parameters<typeof gearRecords>[0]) => recordedGears(gearRecords(rows)).rear;
const places = (part: ReturnType<typeof rear>, count: number): number[] =>
  [...part.position.keys()].map((record) => placeOf(part, record, count));

describe('recordedGears', () => {
  it('gives the same places whichever way the recorder counts', () => {
    const cassette = [11, 13, 15, 17, 20, 23];
    const ridden = [3, 4, 3, 2, 1];
    const fromLargest = rear(ridden.map((cog, timeS) => ({ timeS, rear: 6 - cog, rearTeeth: cassette[cog] })));
    const fromSmallest = rear(ridden.map((cog, timeS) => ({ timeS, rear: cog + 1, rearTeeth: cassette[cog] })));
    expect(fromLargest.countsFrom).toBe('largest');
    expect(fromSmallest.countsFrom).toBe('smallest');
    expect(places(fromLargest, 6)).toEqual(ridden);
    expect(places(fromSmallest, 6)).toEqual(ridden);
  });

  it('counts from the largest cog where no teeth tell, and rings from the smallest', () => {
    const { rear: cogs, front } = recordedGears(gearRecords([1, 2].map((n) => ({ timeS: n, rear: n, front: n }))));
    expect(places(cogs, 9)).toEqual([8, 7]);
    expect(places(front, 2)).toEqual([0, 1]);
  });

  it('names no place for a position beyond those there are', () => {
    expect(places(rear([0, 6, 7].map((position, timeS) => ({ timeS, rear: position }))), 6)).toEqual([-1, 0, -1]);
  });

  it('lists what is named, each once, rising', () => {
    const { sizes, positions } = rear([24, 0, 15, 24].map((rearTeeth, i) => ({ timeS: i, rear: 3 - i, rearTeeth })));
    expect(sizes).toEqual([15, 24]);
    expect(positions).toEqual([1, 2, 3]);
  });
});
