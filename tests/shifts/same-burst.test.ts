import { describe, expect, it } from 'vitest';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { sameBurst } from '../../src/shifts/commands/same-burst.ts';
import { haltsAtEnd } from '../../src/shifts/drops/halts-at-end.ts';
import { at } from './warmed-up.ts';

describe('sameBurst', () => {
  it('joins exact commands less than 1.2 s apart and whole-second records at most 1 s apart', () => {
    expect([0.4, 1.199, 1.2, 1.3].map((gapS) => sameBurst(gapS, false))).toEqual([true, true, false, false]);
    expect([0, 1, 1.1, 2].map((gapS) => sameBurst(gapS, true))).toEqual([true, true, false, false]);
  });

  it('goes by the time as it was written, not by its rounding', () => {
    const gapS = 8.7 - 7.5;
    expect(gapS).toBeLessThan(1.2);
    expect(sameBurst(gapS, false)).toBe(false);
  });
});

describe('a halt after a shift onto the smallest cog', () => {
  /** The legs stop at once after the command; the rider presses again so many seconds later, while the bike rolls out. */
  const found = (againS: number, wholeSeconds: boolean) => {
    const ride = at(1).pedal(12);
    const lostAt = ride.nowS;
    ride.command(0).spinInVain(1, 88).coast(2).command(1).coast(6).brake(4, 0).stand(40).pedal(60);
    const made = ride.log();
    const times = made.gearRecords.timeS.map((timeS) => (timeS === lostAt + 3 ? lostAt + againS : timeS));
    const log: RideLog = { ...made, gearRecords: { ...made.gearRecords, timeS: times, wholeSeconds } };
    return haltsAtEnd(log, traceGears(log, ride.bike)).some(({ start }) => log.timeS[start] === lostAt);
  };

  it('is of its own shift by the one rule for bursts', () => {
    expect(found(3, true)).toBe(true);
    expect(found(1.1, true)).toBe(true);
    expect(found(1.1, false)).toBe(false);
  });
});
