import { describe, expect, it } from 'vitest';
import { causePlace, shiftsAt, shiftsBeside } from '../../src/diagnosis/cause-place.ts';
import { causes } from '../../src/diagnosis/causes.ts';
import { failsLike } from '../../src/diagnosis/now/fails-like.ts';
import { type Observed, observe } from '../../src/diagnosis/observed.ts';
import { cableBike, type PatternRide, patternRide } from './pattern-ride.ts';

const seen = (pattern: PatternRide['pattern']): Observed => observe([patternRide({ pattern })], cableBike);
const calm = seen(() => ({}));
const onto = (from: number): Observed => seen((cog, larger) => (larger && cog >= from ? { late: 0.4 } : {}));

describe('where a cause shows', () => {
  it('is a run of cogs in one direction, which with the shifts beside it is that direction', () => {
    for (const cause of causes) {
      const place = causePlace(cause, calm);
      if (!place) continue;
      expect(shiftsAt(calm, place).shifts, cause).toBe(12 * (place.to - place.from + 1));
      expect(shiftsAt(calm, place).shifts + shiftsBeside(calm, place).shifts, cause).toBe(
        calm.shifts(place.direction).shifts,
      );
    }
  });

  it('is, for a small gap, as far down as it seems to reach, else where it does as a rule', () => {
    for (const from of [5, 6, 7, 8]) expect(causePlace('pulley-gap-small', onto(from))?.from).toBe(from);
    expect(causePlace('pulley-gap-small', calm)?.from).toBe(9);
  });

  it('is what shifts have to fail on to fail like it', () => {
    const fails = (rides: Observed) => failsLike('pulley-gap-small', { seen: rides, lost: () => 0 });
    expect(fails(onto(6))).toBe(true);
    expect(fails(onto(10))).toBe(true);
    expect(fails(seen((cog, larger) => (larger && cog < 4 ? { late: 0.4 } : {})))).toBe(false);
  });
});
