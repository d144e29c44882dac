import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { adjustmentKey } from '../../src/adjustments/adjustment-key.ts';
import { adjustmentNotes } from '../../src/adjustments/adjustment-notes.ts';
import { adjustmentPeriods } from '../../src/adjustments/adjustment-periods.ts';
import { cancelledOut } from '../../src/adjustments/cancelled-out.ts';
import { compareAdjustments } from '../../src/adjustments/compare-adjustments.ts';
import { madeShift } from '../cogs/made-shift.ts';

const HOUR_MS = 3_600_000;
const start = Date.UTC(2026, 3, 1, 8);

/** A ride of half an hour, with clean shifts. */
const ride = (hour: number) => ({
  ...{ startMs: start + hour * HOUR_MS, durationS: 1800 },
  events: {
    shifts: Array.from({ length: 9 }, (_, i) => madeShift(60 * i, 1, 2, 'clean')),
    ...{ ghostShifts: [], chainDrops: [], skips: [], pedallingSByCog: new Float64Array(3) },
  },
});
const turned = (hour: number, amount: number | null, parameter: Adjustment['parameter'] = 'cable-tension') =>
  ({
    at: new Date(start + hour * HOUR_MS).toISOString(),
    ...{ parameter, amount, unit: amount === null ? 'done' : 'clicks', note: '' },
  }) as Adjustment;
const rides = [ride(0), ride(4), ride(8)];
const cancelled = (...made: Adjustment[]): boolean[] => {
  const keys = cancelledOut(made.toReversed(), rides);
  return made.map((one) => keys.has(adjustmentKey(one)));
};

describe('what was turned and taken back', () => {
  it('cancels out, in however many parts', () => {
    expect(cancelled(turned(2, -3), turned(2.1, 3))).toEqual([true, true]);
    expect(cancelled(turned(2, -0.3), turned(2.1, 0.1), turned(2.2, 0.2))).toEqual([true, true, true]);
    expect(cancelled(turned(1, 3), turned(5, -3), turned(5.1, 3))).toEqual([false, true, true]);
  });

  it('does not where a ride lies between, something is left of it, or it was another setting', () => {
    expect(cancelled(turned(2, -3), turned(6, 3))).toEqual([false, false]);
    // during a ride
    expect(cancelled(turned(4.1, -3), turned(4.2, 3))).toEqual([false, false]);
    expect(cancelled(turned(2, -3), turned(2.1, 2))).toEqual([false, false]);
    expect(cancelled(turned(2, -3), turned(2.1, 3, 'pulley-gap'))).toEqual([false, false]);
    expect(cancelled(turned(2, null, 'chain'), turned(2.1, null, 'chain'))).toEqual([false, false]);
  });

  it('carries no verdict, and parts nothing: the rides either side of it are one period', () => {
    const spoilt = {
      ...rides[1],
      events: {
        ...rides[1].events,
        shifts: rides[1].events.shifts.map((one) => ({ ...one, outcome: 'missed' as const })),
      },
    };
    const three = [rides[0], spoilt, rides[2]];
    const made = [turned(2, -3), turned(2.1, 3), turned(2.2, 0.5, 'low-limit'), turned(2.3, -0.5, 'low-limit')];
    const [off, , limit, alone] = compareAdjustments(three, [...made, turned(6, 1, 'pulley-gap')], 3);
    for (const row of [off, limit])
      expect(row).toMatchObject({
        ...{ cancelledOut: true, probabilityBetter: 0.5, shiftsStillNeeded: null, cogs: [], endCog: null },
        ...{ before: { shifts: 9 }, after: { shifts: 9 } },
      });
    expect(alone.cancelledOut).toBe(true);
    const last = compareAdjustments(three, [...made, turned(6, 1, 'pulley-gap')], 3)[4];
    expect(last).toMatchObject({ before: { shifts: 18, missed: 9 }, after: { shifts: 9 }, group: 1 });
  });

  it('is left out of a pair made with other work', () => {
    const made = [turned(2, -3), turned(2.1, 0.5, 'high-limit'), turned(2.15, 1, 'pulley-gap'), turned(2.2, 3)];
    expect(compareAdjustments(rides, made, 3).map((one) => one.sharedPeriod)).toEqual([false, true, true, false]);
  });

  it('shares nothing with other work done meanwhile, and is noted nowhere', () => {
    const made = [turned(2, -3), turned(2.1, 0.5, 'high-limit'), turned(2.2, 3)];
    const compared = compareAdjustments(rides, made, 3);
    expect(compared.map((one) => [one.parameter, one.cancelledOut, one.sharedPeriod])).toEqual([
      ['cable-tension', true, false],
      ['high-limit', false, false],
      ['cable-tension', true, false],
    ]);
    const { groups } = adjustmentPeriods(rides, made);
    const notes = (adjustments: Adjustment[]) =>
      adjustmentNotes(adjustmentPeriods(rides, adjustments).groups, rides, {
        adjustments,
        bike: { actuation: 'cable' },
      });
    expect(groups[0].adjustments).toHaveLength(3);
    expect(notes(made)).toEqual([]);
    expect(notes([...made.slice(0, 2), turned(2.2, 2)]).join(' ')).toMatch(
      /^Cable tension twice and high limit screw/i,
    );
  });
});
