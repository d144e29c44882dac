import { expect, it } from 'vitest';
import { cogsByPeriod } from '../../server/state/cogs-by-period.ts';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { madeShift } from '../cogs/made-shift.ts';

const HOUR_MS = 3_600_000;
const start = Date.UTC(2026, 3, 1, 8);
const bike: Bike = { name: 'B', chainrings: [32], cassette: [11, 15, 20], rolloutMm: 2200, actuation: 'cable' };

const ride = (hour: number) => ({
  ...{ startMs: start + hour * HOUR_MS, durationS: 1800 },
  events: {
    shifts: [madeShift(60, 1, 2, 'clean')],
    ...{ ghostShifts: [], chainDrops: [], skips: [], pedallingSByCog: new Float64Array(3) },
  },
});
const turned = (hour: number, amount: number): Adjustment => ({
  at: new Date(start + hour * HOUR_MS).toISOString(),
  ...{ parameter: 'cable-tension', amount, unit: 'clicks', note: '' },
});

it('ends a period with the first of several made with no shift between, and begins the next with the last', () => {
  const made = [turned(2, 3), turned(3, 1), turned(6, 2)];
  const periods = cogsByPeriod([ride(0), ride(4)], made, bike);
  expect(periods.map(({ from, to }) => [from, to])).toEqual([
    [null, made[0].at],
    [made[1].at, made[2].at],
    [made[2].at, null],
  ]);
});

it('parts the rides at what was turned, but not at what was taken back with no ride between', () => {
  const periods = (...made: Adjustment[]) =>
    cogsByPeriod([ride(0), ride(4)], made, bike).map(({ cogs }) => cogs.reduce((sum, { shifts }) => sum + shifts, 0));
  expect(periods(turned(2, 3))).toEqual([1, 1]);
  expect(periods(turned(2, 3), turned(3, -3))).toEqual([2]);
});
