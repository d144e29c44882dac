import { describe, expect, it } from 'vitest';
import { otherStepsWarning, stepsApart } from '../../src/gear-trace/disagreement/other-steps.ts';

const bike = { chainrings: [34, 50], cassette: [11, 12, 13, 14, 16, 18, 20, 22, 25, 28, 32] };
/** Gear records that name these sizes, or positions alone where it is none. */
const naming = (rearTeeth: readonly number[]) => ({
  gearRecords: {
    timeS: Float64Array.from(bike.cassette, (_, i) => i),
    frontTeeth: new Uint8Array(11),
    rearTeeth: Uint8Array.from({ length: 11 }, (_, i) => rearTeeth[i] ?? 0),
    frontPosition: new Uint8Array(11),
    rearPosition: Uint8Array.from({ length: 11 }, (_, i) => i + 1),
  },
});
const warningOf = (shown: ReturnType<typeof peaks>, rearTeeth: readonly number[] = bike.cassette) =>
  otherStepsWarning(naming(rearTeeth) as never, shown, bike, SHARED_S);
const SHARED_S = 6;
const COGS = bike.cassette.length;

/** Developments of these cogs on a wheel of 2100 mm with these rings; the first `ridden` cogs for a minute each. */
const peaks = (cassette: readonly number[], ridden = COGS, rings = bike.chainrings, spread = 0.004) =>
  rings.flatMap((ring) =>
    cassette.map((teeth, cog) => ({
      centre: Math.log((2.1 * ring) / teeth),
      spread,
      count: cog < ridden ? 60 : 0,
    })),
  );

describe('the steps from cog to cog that a ride shows', () => {
  it('are those of the cogs as named, whatever the wheel and the rings', () => {
    expect(stepsApart(peaks(bike.cassette), bike, 0)).toBeCloseTo(0, 12);
    expect(warningOf(peaks(bike.cassette))).toBeNull();
    expect(stepsApart(peaks(bike.cassette, COGS, [30, 46]), bike, 0)).toBeCloseTo(0, 12);
  });

  it('are others on another cassette', () => {
    const shown = peaks([11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28]);
    const warning = warningOf(shown);
    expect(warning?.code).toBe('cog-steps-differ');
    expect(warning?.message).toMatch(/cogs 11-12-13-14-16-.*lie [23] % beside them/);
    expect(warningOf(shown, [])?.code).toBe('cog-steps-differ');
    // records that name others are told of by themselves
    expect(warningOf(shown, [11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28])).toBeNull();
  });

  it('are not in doubt where the speed errs by as much', () => {
    const other = [11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28];
    expect(warningOf(peaks(other, COGS, bike.chainrings, 0.15))).toBeNull();
  });

  it('are not in doubt for one cog of another size, nor for a chain that stands a cog from the one asked for', () => {
    expect(warningOf(peaks([11, 12, 13, 14, 15, 18, 20, 22, 25, 28, 32]))).toBeNull();
    // nor for one that was only passed on the way, which shows its neighbour's
    expect(warningOf(peaks([11, 12, 13, 14, 16, 18, 20, 25, 25, 28, 32]))).toBeNull();
    const off = [...bike.cassette.slice(1), 36];
    expect(stepsApart(peaks(off), bike, 0)).toBeGreaterThan(0.014);
    expect(stepsApart(peaks(off), bike, 1)).toBeCloseTo(0, 12);
    expect(warningOf(peaks(off))).toBeNull();
  });

  it('are not told by few cogs, nor by the two ends, where the chain may be held short', () => {
    const other = [11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28];
    expect(stepsApart(peaks(other, 7), bike, 0)).toBeGreaterThan(0);
    expect(stepsApart(peaks(other, 6), bike, 0)).toBeNull();
    expect(warningOf(peaks(other, 6))).toBeNull();
    expect(stepsApart(peaks([10, ...bike.cassette.slice(1, -1), 40]), bike, 0)).toBeCloseTo(0, 12);
  });
});
