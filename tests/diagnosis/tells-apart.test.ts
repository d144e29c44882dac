import { describe, expect, it } from 'vitest';
import type { Rivals } from '../../src/diagnosis/check-ride/rivals.ts';
import { skipStretch } from '../../src/diagnosis/check-ride/skip-stretch.ts';
import { namedByPlan, namedByShifts, namedBySkips, TELLS } from '../../src/diagnosis/check-ride/tells-apart.ts';
import type { Particle } from '../../src/diagnosis/posterior/particles.ts';

/** So many imagined bikes of each of two causes, with a chance of trouble and skips an hour each. */
const BIKES = 40;
function rivals(trouble: readonly [number, number], skips: readonly [number, number] = [0.1, 0.1]): Rivals {
  const bikes = <T>(pair: readonly [T, T]): T[] => pair.flatMap((value) => Array<T>(BIKES).fill(value));
  const between = ['cable-tension-low', 'pulley-gap-large'] as const;
  return {
    between,
    lookAhead: {
      particles: bikes(between).map((cause) => ({ cause }) as Particle),
      expect: () => ({ trouble: Float64Array.from(bikes(trouble)), drop: new Float64Array(2 * BIKES).fill(0.0001) }),
      skipsPerHour: Float64Array.from(bikes(skips)),
    },
    rows: [[...Array(BIKES).keys()], [...Array(BIKES).keys()].map((i) => i + BIKES)],
  };
}
const shifts = (count: number) => [{ cog: 3, larger: true, firm: false, count }];

describe('how often shifts name the right one of two causes', () => {
  it('is what exact counting gives', () => {
    // two shifts at 10 % and 60 %: none wrong in 0.81 and 0.16, one or two in 0.19 and 0.84
    expect(namedByShifts([0.1], [0.6], 2)).toBeCloseTo((0.81 + 0.84) / 2, 12);
    // nobody knows which bike it is: the chances are averaged, not the rates
    expect(namedByShifts([0, 1], [0.5], 2)).toBeCloseTo((0.5 + 0.5 + 0.5) / 2, 12);
    expect(namedByShifts([0.3, 0.1], [0.3, 0.1], 6)).toBeCloseTo(0.5, 12);
  });

  it('is too seldom for six shifts at the rates that differ little', () => {
    for (const [one, other] of [
      [0.01, 0.04],
      [0.02, 0.09],
      [0.48, 0.59],
    ])
      expect(namedByShifts([one], [other], 6)).toBeLessThan(TELLS);
    expect(namedByShifts([0.02], [0.53], 6)).toBeGreaterThan(TELLS);
    expect(namedByShifts([0.48], [0.59], 60)).toBeGreaterThan(TELLS);
  });

  it('comes out the same when a whole plan is imagined, but for chance', () => {
    expect(namedByPlan(rivals([0.05, 0.6]), shifts(6))).toBeGreaterThan(TELLS);
    expect(namedByPlan(rivals([0.48, 0.59]), shifts(6))).toBeLessThan(TELLS);
    expect(namedByPlan(rivals([0.3, 0.3]), shifts(36))).toBeLessThan(TELLS);
  });
});

describe('how long to pedal under load', () => {
  it('is as long as skips need to tell, up to an hour', () => {
    // no skip in a stretch in which 2 are to be expected: exp(-2)
    expect(namedBySkips([1e-9], [2])).toBeCloseTo((1 + 1 - Math.exp(-2)) / 2, 6);
    expect(skipStretch(rivals([0.1, 0.1], [0.1, 9])).words).toBe('twenty');
    expect(skipStretch(rivals([0.1, 0.1], [0.05, 1.6])).words).toBe('forty-five');
    const hopeless = skipStretch(rivals([0.1, 0.1], [0.01, 0.3]));
    expect(hopeless.words).toBe('sixty');
    expect(hopeless.named).toBeLessThan(TELLS);
  });
});
