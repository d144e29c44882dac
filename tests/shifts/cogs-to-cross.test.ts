import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cogsToCross } from '../../src/shifts/commands/cogs-to-cross.ts';

/** Shifts from [time, from, to]. */
const asked = (shifts: readonly (readonly [number, number, number])[]) =>
  shifts.map(([timeS, fromCog, toCog]) => ({ timeS, lastTimeS: timeS, fromCog, toCog }));
const pedallingAt = (rpm: number) => (timeS: number) => (timeS * rpm) / 60;

describe('cogs the chain has to cross', () => {
  const row = asked([
    [10, 8, 7],
    [12, 7, 6],
    [14, 6, 4],
    [16, 4, 3],
  ]);

  it('are those of the shift itself while the cranks turn', () => {
    expect(row.map((_, i) => cogsToCross(row, i, pedallingAt(80)))).toEqual([1, 1, 2, 1]);
  });

  it('are those of all the shifts before it while the rider coasts', () => {
    expect(row.map((_, i) => cogsToCross(row, i, () => 0))).toEqual([1, 2, 4, 5]);
  });

  it('begin anew once the cranks have made a turn', () => {
    const turnAt13 = (timeS: number): number => (timeS < 13 ? 0 : 1.2);
    expect(row.map((_, i) => cogsToCross(row, i, turnAt13))).toEqual([1, 2, 2, 3]);
  });

  it('are counted from the furthest cog the chain may still lie on where the rider went back and forth', () => {
    const back = asked([
      [10, 3, 9],
      [12, 9, 4],
    ]);
    expect(cogsToCross(back, 1, () => 0)).toBe(5);
  });

  it('are never fewer than the shift asks for, and never more than the cassette has', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(11), { minLength: 2, maxLength: 300 }), fc.nat(100), (cogs, rpm) => {
        const shifts = asked(cogs.slice(1).map((cog, i) => [i + 1, cogs[i], cog]));
        shifts.forEach(({ fromCog, toCog }, i) => {
          const cross = cogsToCross(shifts, i, pedallingAt(rpm));
          expect(cross).toBeGreaterThanOrEqual(Math.abs(toCog - fromCog));
          expect(cross).toBeLessThanOrEqual(11);
        });
      }),
    );
  });

  it('cost no more for a long ride without cadence: only so many shifts before are looked at', () => {
    const many = asked(Array.from({ length: 60_000 }, (_, i) => [i, i % 2, (i + 1) % 2]));
    let asks = 0;
    many.forEach((_, i) => {
      cogsToCross(many, i, () => {
        asks++;
        return 0;
      });
    });
    expect(asks).toBeLessThan(26 * many.length);
  });
});
