import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { compareAdjustments } from '../../src/adjustments/compare-adjustments.ts';
import { stepCautions } from '../../src/diagnosis/next-step/step-cautions.ts';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import { madeShift } from '../cogs/made-shift.ts';
import { facts } from './made-facts.ts';

const DAY_MS = 86_400_000;
const start = Date.UTC(2026, 3, 1, 8);

/** A ride of so many hours pedalled on one cog, with a shift and so many skips. */
const ride = (day: number, hours: number, skips = 0) => ({
  ...{ startMs: start + day * DAY_MS, durationS: 3600 * hours },
  events: {
    ...{ shifts: [madeShift(60, 1, 2, 'clean')], ghostShifts: [], chainDrops: [] },
    skips: Array.from({ length: skips }, () => ({ timeS: 90, cog: 1, confidence: 0.9, torqueNm: 40 })),
    pedallingSByCog: Float64Array.of(0, 3600 * hours, 0),
  },
});
const replaced = (day: number, parameter: Adjustment['parameter']): Adjustment => ({
  ...{ at: new Date(start + (day - 0.5) * DAY_MS).toISOString(), parameter, amount: null, unit: 'done', note: '' },
});
const warns = (rides: ReturnType<typeof ride>[], log: Adjustment[]): boolean =>
  suggest(facts({ comparisons: compareAdjustments(rides, log, 3) })).cautions.includes(stepCautions.newChain.text);

describe('a new chain on a cassette that stayed', () => {
  it('calls for care under load, until hours of pedalling have shown no skip', () => {
    expect(warns([ride(0, 2)], [replaced(1, 'chain')])).toBe(true);
    expect(warns([ride(0, 2), ride(1, 4)], [replaced(1, 'chain')])).toBe(true);
    expect(warns([ride(0, 2), ride(1, 6), ride(2, 6)], [replaced(1, 'chain')])).toBe(false);
    expect(warns([ride(0, 2), ride(1, 6), ride(2, 6, 1)], [replaced(1, 'chain')])).toBe(true);
  });

  it('calls for none with the cassette replaced too, then or later, or with nothing replaced', () => {
    const rides = [ride(0, 2), ride(2, 1)];
    expect(warns(rides, [replaced(1, 'chain'), replaced(1, 'cassette')])).toBe(false);
    expect(warns(rides, [replaced(1, 'chain'), replaced(3, 'cassette')])).toBe(false);
    expect(warns(rides, [replaced(1, 'hanger')])).toBe(false);
    expect(warns(rides, [replaced(1, 'cassette'), replaced(3, 'chain')])).toBe(true);
  });
});
