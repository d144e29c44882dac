import { describe, expect, it } from 'vitest';
import { cogsNamedAlike, ringsNamedAlike } from '../../src/gear-trace/belonging/named-alike.ts';
import { recordedGears } from '../../src/gear-trace/commands/recorded-gears.ts';
import { gearRecords } from './made-ride.ts';

/** What a ride's records name, each once, in this order; a position of 0 is none. */
const named = (teeth: readonly number[], positions: readonly number[] = []) =>
  recordedGears(gearRecords(teeth.map((rearTeeth, timeS) => ({ timeS, rearTeeth, rear: positions[timeS] ?? 0 })))).rear;
const ring = (frontTeeth: number, front = 0) => recordedGears(gearRecords([{ timeS: 0, frontTeeth, front }])).front;

describe('cogsNamedAlike', () => {
  const [small, large] = [[10, 12, 14, 16, 18, 21, 24, 28] as const, [18, 21, 24, 28, 33, 39, 45] as const];

  it('goes by the stretch of the cassette that both rode', () => {
    expect(cogsNamedAlike(named(small), named(large))).toBe(1);
    expect(cogsNamedAlike(named(small), named([17, 19, 21, 24, 27, 31, 35]))).toBe(0.5);
  });

  it('goes by the positions that both name, where both name some', () => {
    const inPlace = named(small, [12, 11, 10, 9, 8, 7, 6, 5]);
    expect(cogsNamedAlike(inPlace, named(large, [8, 7, 6, 5, 4, 3, 2]))).toBe(1);
    expect(cogsNamedAlike(inPlace, named(large, [7, 6, 5, 4, 3, 2, 1]))).toBe(0);
    // one recorder counts from the smallest: only the sizes are left
    expect(cogsNamedAlike(inPlace, named(large, [5, 6, 7, 8, 9, 10, 11]))).toBe(1);
  });

  it('knows a cassette of which two rides each left out cogs', () => {
    const [one, two] = [
      [10, 14, 18, 24],
      [12, 16, 18, 21],
    ];
    expect(cogsNamedAlike(named(one), named(two))).toBe(0.5);
    expect(cogsNamedAlike(named(one, [12, 10, 8, 6]), named(two, [11, 9, 8, 7]))).toBe(1);
  });

  it('tells nothing where nothing is left to compare', () => {
    expect(cogsNamedAlike(named([10, 12, 14]), named([18, 21]))).toBeNaN();
    expect(cogsNamedAlike(named([10, 12, 14], [12, 11, 10]), named([18, 21], [8, 7]))).toBeNaN();
    expect(cogsNamedAlike(named([12]), named([10, 14]))).toBeNaN();
    expect(cogsNamedAlike(named([]), named([10, 14]))).toBeNaN();
  });
});

describe('ringsNamedAlike', () => {
  it('takes rides on two rings for one bike only where their positions allow it', () => {
    expect(ringsNamedAlike(ring(34), ring(34))).toBe(1);
    expect(ringsNamedAlike(ring(34), ring(50))).toBe(0);
    expect(ringsNamedAlike(ring(34, 1), ring(50, 2))).toBeNaN();
    expect(ringsNamedAlike(ring(32, 1), ring(34, 1))).toBe(0);
    expect(ringsNamedAlike(ring(0), ring(34))).toBe(1);
  });
});
