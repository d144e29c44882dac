import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { compareAdjustments } from '../../src/adjustments/compare-adjustments.ts';
import { madeShift } from '../cogs/made-shift.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const start = Date.UTC(2026, 3, 1, 8);

/** An hour's ride, half of it pedalled, with a clean shift in its middle and so many skips spread over it. */
const ride = (day: number, skips: number) => ({
  startMs: start + day * DAY_MS,
  durationS: 3600,
  events: {
    ...{ shifts: [madeShift(1800, 1, 2, 'clean')], ghostShifts: [], chainDrops: [] },
    skips: Array.from({ length: skips }, (_, i) => ({
      ...{ timeS: (3600 * (i + 0.5)) / skips, cog: 1, confidence: 0.9, torqueNm: 40 },
    })),
    pedallingSByCog: Float64Array.of(600, 900, 300),
  },
});
const done = (atMs: number, parameter: Adjustment['parameter'] = 'chain'): Adjustment => ({
  at: new Date(start + atMs).toISOString(),
  ...{ parameter, amount: null, unit: 'done', note: '' },
});
const compare = (rides: ReturnType<typeof ride>[], log: Adjustment[]) =>
  compareAdjustments(rides, log, 3).map(({ skipping }) => skipping);

describe('a chain or cassette', () => {
  it('is judged by the skips an hour on the old parts and on the new ones, whatever else was done between', () => {
    const rides = [ride(0, 1), ride(1, 1), ride(2, 0), ride(3, 0), ride(4, 1)];
    const log = [done(1.5 * DAY_MS, 'hanger'), done(2.5 * DAY_MS), done(2.5 * DAY_MS, 'cassette'), done(3.5 * DAY_MS)];
    const [hanger, chain, cassette, next] = compare(rides, log.toReversed());
    expect(hanger).toBeNull();
    expect(chain).toMatchObject({ before: { skips: 2, hours: 1.5 }, after: { skips: 0, hours: 0.5 } });
    expect(cassette).toEqual(chain);
    expect(next).toMatchObject({ before: { skips: 0, hours: 0.5 }, after: { skips: 1, hours: 0.5 } });
  });

  it('replaced during a ride parts its skips and its pedalling', () => {
    const [chain] = compare([ride(0, 4)], [done(HOUR_MS / 4)]);
    expect(chain).toMatchObject({ before: { skips: 1, hours: 0.125 }, after: { skips: 3, hours: 0.375 } });
  });

  it('tells the skips and the pedalling of either time by cog', () => {
    const [chain] = compare([ride(0, 2), ride(1, 0)], [done(DAY_MS / 2)]);
    const tally = (cog: number, skips: number, pedallingS: number) => ({ cog, skips, pedallingS });
    expect(chain?.cogs).toEqual({
      before: [tally(0, 0, 600), tally(1, 2, 900), tally(2, 0, 300)],
      after: [tally(0, 0, 600), tally(1, 0, 900), tally(2, 0, 300)],
    });
  });

  it('counts no ride without a date, which may lie on either side', () => {
    const [chain] = compare([{ ...ride(0, 3), startMs: 0 }, ride(1, 1), ride(3, 0)], [done(2 * DAY_MS)]);
    expect(chain).toMatchObject({ before: { skips: 1, hours: 0.5 }, after: { skips: 0, hours: 0.5 } });
  });

  it('is as likely to have helped as not where nothing was pedalled on one side, or no chain ever skipped', () => {
    const [first] = compare([ride(1, 4)], [done(0)]);
    expect(first).toMatchObject({ probabilityFewer: 0.5, hoursStillNeeded: null });
    const [last] = compare([ride(0, 4)], [done(DAY_MS)]);
    expect(last?.probabilityFewer).toBe(0.5);
    expect(last?.hoursStillNeeded).toBeGreaterThan(0);
    const [sound] = compare([ride(0, 0), ride(2, 0)], [done(DAY_MS)]);
    expect(sound?.probabilityFewer).toBeCloseTo(0.5, 1);
    expect(sound?.hoursStillNeeded).toBeNull();
  });

  it('is decided once so many hours were pedalled without a skip as it said would be needed', () => {
    const worn = [ride(0, 2), ride(1, 1)];
    const rides = (count: number) => [...worn, ...Array.from({ length: count }, (_, i) => ride(3 + i, 0))];
    const [early] = compare(rides(1), [done(2 * DAY_MS)]);
    expect(early?.probabilityFewer).toBeLessThan(0.95);
    const [later] = compare(rides(1 + 2 * (early?.hoursStillNeeded ?? 0)), [done(2 * DAY_MS)]);
    expect(later?.probabilityFewer).toBeGreaterThan(0.95);
    expect(later?.hoursStillNeeded).toBe(0);
    const [worse] = compare(
      [...rides(8).slice(2), ...worn.map((one) => ({ ...one, startMs: one.startMs + 20 * DAY_MS }))],
      [done(15 * DAY_MS)],
    );
    expect(worse?.probabilityFewer).toBeLessThan(0.05);
  });
});
