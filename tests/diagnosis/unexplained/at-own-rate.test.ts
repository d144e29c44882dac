import fc from 'fast-check';
import { expect, it } from 'vitest';
import { troubleAtOwnRate } from '../../../src/diagnosis/unexplained/at-own-rate.ts';
import type { ShiftEvent } from '../../../src/shifts/ride-events.ts';
import { cassette, patternRide } from '../pattern-ride.ts';

const [plain] = patternRide({ pattern: () => ({}), shifts: 1 }).events.shifts.filter(
  ({ toCog }) => toCog === cassette.length - 1,
);
const lateAs = (late: number): ShiftEvent => ({
  ...plain,
  expected: { clean: 0.97, late: 0.02, missed: 0.01, overshot: 0 },
  outcome: late > 0.5 ? 'late' : 'clean',
  crankRevs: 2.5,
  probability: { clean: 1 - late, late, missed: 0, overshot: 0 },
});
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

it('a doubtful shift among sure ones is likelier late than among clean ones', () => {
  const clean = Array.from({ length: 20 }, () => lateAs(0.001));
  const amongSure = troubleAtOwnRate([lateAs(0.4), ...Array.from({ length: 8 }, () => lateAs(0.99)), ...clean]);
  const amongClean = troubleAtOwnRate([lateAs(0.4), ...clean]);
  expect(amongSure[0]).toBeGreaterThan(0.5);
  expect(amongClean[0]).toBeLessThan(amongSure[0]);
  // sure ones stay sure, whatever the others do
  expect(Math.min(...amongSure.slice(1, 9))).toBeGreaterThan(0.9);
});

it('gives chances, and none of trouble where nothing was late', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 40 }), (lates) => {
      const shares = troubleAtOwnRate(lates.map(lateAs));
      return shares.length === lates.length && shares.every((share) => share >= 0 && share <= 1);
    }),
  );
  expect(sum(troubleAtOwnRate(Array.from({ length: 40 }, () => lateAs(0))))).toBeLessThan(0.1);
});
