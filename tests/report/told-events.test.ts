import { describe, expect, it } from 'vitest';
import { momentIso } from '../../src/report/moment-iso.ts';
import { cogAt, toldReport } from '../../src/report/told-events.ts';

const at = (timeS: number): string => momentIso(Date.UTC(2026, 5, 1), timeS);
const asked = (timeS: number, fromTeeth: number, toTeeth: number) => ({ at: at(timeS), fromTeeth, toTeeth });
type Ride = Parameters<typeof toldReport>[0];
const ride = (shifts: ReturnType<typeof asked>[], gears: Ride['gears'] = []): Ride =>
  ({ shifts, gears }) as unknown as Ride;

describe('a lost chain that a rider tells of', () => {
  const shiftBefore = (
    shifts: ReturnType<typeof asked>[],
    side: 'past-largest' | 'past-smallest' | 'chainring' | 'unknown',
  ) => toldReport(ride(shifts), [{ at: at(100), kind: 'drop', side }]).chainDrops[0].afterShiftTo;

  it('came after the shift farthest out on its side of those just before, and else after the last', () => {
    const shifts = [asked(96, 12, 10), asked(98, 10, 51), asked(99, 51, 24)];
    expect(shiftBefore(shifts, 'past-smallest')).toBe(10);
    expect(shiftBefore(shifts, 'past-largest')).toBe(51);
    expect(shiftBefore(shifts, 'chainring')).toBe(24);
    expect(shiftBefore(shifts, 'unknown')).toBe(24);
  });

  it('came after none that was asked for later, or long before', () => {
    expect(shiftBefore([asked(101, 45, 51)], 'past-largest')).toBeNull();
    expect(shiftBefore([asked(40, 45, 51)], 'past-largest')).toBeNull();
    expect(shiftBefore([asked(98, 39, 45), asked(101, 45, 51)], 'past-largest')).toBe(45);
  });
});

describe('the cog of a skip that a rider tells of', () => {
  it('is the one that the chain was last seen on, else the one asked for last', () => {
    const gears = [
      { at: at(0), teeth: 21 },
      { at: at(50), teeth: null },
      { at: at(200), teeth: 33 },
    ];
    expect(cogAt(ride([asked(80, 21, 24)], gears), at(100))).toBe(21);
    expect(cogAt(ride([asked(80, 21, 24)]), at(100))).toBe(24);
  });

  it('is the one that the first shift left where nothing was seen or asked for before', () => {
    expect(cogAt(ride([asked(80, 18, 21), asked(90, 21, 24)]), at(30))).toBe(18);
    expect(cogAt(ride([]), at(30))).toBeNull();
    expect(toldReport(ride([]), [{ at: at(30), kind: 'skip' }]).skips).toEqual([]);
  });
});
