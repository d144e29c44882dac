import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { revolutionClock } from '../../src/shifts/turns/revolution-clock.ts';
import checks from '../checks/shift-timing.json' with { type: 'json' };
import { madeLog } from '../gear-trace/made-ride.ts';

const at = (cadenceRpm: readonly number[], timeS?: readonly number[]) =>
  revolutionClock(madeLog({ speedMps: cadenceRpm.map(() => 5), cadenceRpm, timeS }));

describe('revolutionClock', () => {
  it.each(checks.cogTurn.rows)('$ring/$cog at $cadenceRpm rpm', ({ ring, cog, cadenceRpm, linksPerS, cogTurnS }) => {
    const clock = at(Array(20).fill(cadenceRpm));
    expect(Math.abs(clock.after(3, cog / ring) - 3 - cogTurnS)).toBeLessThan(checks.cogTurn.toleranceS);
    expect((clock.at(6) - clock.at(5)) * ring).toBeCloseTo(linksPerS, 9);
  });

  it('stands still while the cranks do', () => {
    const clock = at([60, 60, 60, 0, 0, 0, 0, 60, 60, 60, 60]);
    expect(clock.at(6)).toBe(clock.at(3));
    expect(clock.after(2, 1)).toBe(7);
    expect(clock.after(2, 1.5)).toBe(7.5);
  });

  it('counts nothing over gaps of more than 5 s and where cadence is missing on both sides', () => {
    const gap = at([60, 60, 60, 60], [0, 1, 21, 22]);
    expect(gap.at(21)).toBe(1);
    expect(gap.at(22)).toBe(2);
    const missing = at([60, 60, Number.NaN, Number.NaN, 60, 60]);
    expect(missing.at(3)).toBe(2);
    expect(missing.at(5)).toBe(4);
  });

  it('counts on through the gaps of a sparse recorder, with pedalling on both sides, and no others', () => {
    expect(at([60, 60, 90], [0, 1, 9]).at(9)).toBe(1 + 8 * 1.25);
    expect(at([60, 60, 0], [0, 1, 9]).at(9)).toBe(1);
    expect(at([60, 20, 60], [0, 1, 9]).at(9)).toBeCloseTo(2 / 3, 9);
  });

  it('is 0 before the ride, its end after it, and never gets there when the ride ends', () => {
    const clock = at([60, 60, 60]);
    expect([clock.at(-5), clock.at(99)]).toEqual([0, 2]);
    expect(clock.after(1, 5)).toBe(Number.POSITIVE_INFINITY);
  });

  it('rises, and `after` turns `at` round', () => {
    const cadence = fc.array(fc.oneof(fc.integer({ min: 0, max: 130 }), fc.constant(Number.NaN)), {
      minLength: 10,
      maxLength: 60,
    });
    fc.assert(
      fc.property(
        cadence,
        fc.double({ min: 0, max: 8, noNaN: true }),
        fc.double({ min: 0.01, max: 20, noNaN: true }),
        (rpm, fromS, revs) => {
          const clock = at(rpm);
          expect(clock.at(fromS + 1)).toBeGreaterThanOrEqual(clock.at(fromS));
          const until = clock.after(fromS, revs);
          expect(until).toBeGreaterThanOrEqual(fromS);
          if (Number.isFinite(until)) expect(clock.at(until)).toBeCloseTo(clock.at(fromS) + revs, 6);
        },
      ),
      { numRuns: 200 },
    );
  });
});
