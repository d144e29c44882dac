import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standingCut } from '../../src/shifts/turns/standing-cut.ts';
import { madeLog } from '../gear-trace/made-ride.ts';

const cut = (cadenceRpm: readonly number[], { timeS, speedMps }: { timeS?: number[]; speedMps?: number[] } = {}) =>
  standingCut(madeLog({ speedMps: speedMps ?? cadenceRpm.map(() => 5), cadenceRpm, timeS }));
const coasting = [80, 80, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 80, 80, 80];

describe('standingCut', () => {
  it('leaves a second after the stop and a second and a half before the last standing record', () => {
    const { left, moment } = cut(coasting); // cranks stand from second 2 to 11: 3 to 9.5 is cut
    expect([1, 3, 5, 9.5, 10, 14].map(left)).toEqual([1, 3, 3, 3, 3.5, 7.5]);
    expect([1, 2.5, 3, 3.5, 7.5].map(moment)).toEqual([1, 2.5, 9.5, 10, 14]);
  });

  it('cuts neither short stops nor missing cadence', () => {
    for (const cadence of [[80, 0, 0, 80, 80], [80, 80, ...Array(20).fill(Number.NaN), 80], Array(20).fill(80)]) {
      const { left, moment } = cut(cadence);
      for (const t of [-1, 0, 1.7, 4, 12]) expect([left(t), moment(t)]).toEqual([t, t]);
    }
  });

  it('cuts a pause of the recording only where the bike stood still', () => {
    const timeS = [0, 1, 2, 3, 63, 64, 65];
    const cadence = [80, 80, 0, 0, 0, 80, 80];
    const stood = cut(cadence, { timeS, speedMps: [5, 4, 1, 0, 0, 1, 2] });
    expect(stood.left(65) - stood.left(2)).toBe(65 - 2 - (63 - 1.5 - 3));
    const rolled = cut(cadence, { timeS, speedMps: [5, 5, 5, 5, 5, 5, 5] });
    expect(rolled.left(65)).toBe(65);
  });

  it('never runs backwards or faster than time, and `moment` turns `left` round', () => {
    const cadences = fc.array(fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, fc.integer({ min: 40, max: 120 })), {
      minLength: 2,
      maxLength: 60,
    });
    fc.assert(
      fc.property(
        cadences,
        fc.array(fc.double({ min: -2, max: 70, noNaN: true }), { minLength: 2 }),
        (cadence, times) => {
          const { left, moment } = cut(cadence);
          const sorted = [...times].sort((a, b) => a - b);
          sorted.forEach((t, i) => {
            expect(left(moment(t))).toBeCloseTo(t, 9);
            expect(moment(left(t))).toBeGreaterThanOrEqual(t - 1e-9);
            if (i === 0) return;
            const passed = left(t) - left(sorted[i - 1]);
            expect(passed).toBeGreaterThanOrEqual(-1e-9);
            expect(passed).toBeLessThanOrEqual(t - sorted[i - 1] + 1e-9);
          });
        },
      ),
    );
  });
});
