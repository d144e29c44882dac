import { describe, expect, it } from 'vitest';
import { wilsonInterval } from '../../../src/numeric/wilson-interval.ts';
import { worstCog } from '../../../src/report/state/worst-cog.ts';
import { sampleReport } from '../sample-report.ts';

const cog = (teeth: number, shifts: number, missed: number) => ({
  teeth,
  direction: 'to-larger' as const,
  shifts,
  late: 0,
  missed,
  overshot: 0,
  ghostShifts: 0,
  troubleRate: shifts > 0 ? missed / shifts : null,
  ...wilsonInterval(missed, shifts),
});

/** The worst of these cogs, of all rides. */
function worst(...cogs: readonly ReturnType<typeof cog>[]) {
  const [shifts, count] = (['shifts', 'missed'] as const).map((key) => cogs.reduce((sum, one) => sum + one[key], 0));
  const whole = { since: 'first-ride', sinceAt: null, rides: 2, shifts, count, rate: count / shifts } as const;
  return worstCog({ ...sampleReport(), cogs: [...cogs] }, [], { ...whole, ...wilsonInterval(count, shifts) });
}

describe('the worst cog', () => {
  it('is the one that surely goes wrong more often than the whole bike', () => {
    expect(worst(cog(27, 200, 2), cog(30, 13, 8))).toMatchObject({ teeth: 30, direction: 'to-larger', shifts: 13 });
    expect(worst(cog(24, 300, 0), cog(27, 40, 20), cog(30, 13, 8))?.teeth).toBe(30);
  });

  it('is no cog of a handful of shifts that all went wrong where another fails two times in five of hundreds', () => {
    expect(worst(cog(24, 600, 0), cog(27, 200, 80), cog(30, 5, 5))?.teeth).toBe(27);
    expect(worst(cog(24, 600, 0), cog(27, 200, 80), cog(30, 12, 10))?.teeth).toBe(30);
  });

  it('is none where all fail alike, or a cog was hardly tried', () => {
    expect(worst(cog(27, 60, 20), cog(30, 60, 24))).toBeNull();
    expect(worst(cog(27, 200, 0), cog(30, 4, 4))).toBeNull();
    expect(worst(cog(27, 200, 0), cog(30, 0, 0))).toBeNull();
    // one shift of five is chance
    expect(worst(cog(27, 259, 1), cog(30, 5, 1))).toBeNull();
  });

  it('is counted from the same moment as the whole', () => {
    const report = sampleReport();
    const startMs = Date.parse('2026-05-01T08:00:00Z');
    const last = report.bike.cassette.length - 1;
    const shift = (timeS: number, outcome: string) => ({ timeS, outcome, toCog: last, direction: 'to-larger' });
    const shifts = [...Array(10).keys()].flatMap((i) => [shift(i, 'missed'), shift(100 + i, 'clean')]);
    const rides = [{ startMs, events: { shifts, ghostShifts: [], chainDrops: [] } }] as never;
    const whole = {
      since: 'last-adjustment',
      rides: 1,
      shifts: 300,
      count: 3,
      rate: 0.01,
      low: 0,
      high: 0.03,
    } as const;
    const from = (ms: number) => worstCog(report, rides, { ...whole, sinceAt: new Date(ms).toISOString() });
    expect(from(startMs)).toMatchObject({ teeth: 37, shifts: 20, troubleRate: 0.5 });
    expect(from(startMs + 50_000)).toBeNull();
  });
});
