import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { adjustmentPeriods } from '../../src/adjustments/adjustment-periods.ts';
import { buildEvidence } from '../../src/diagnosis/evidence/build-evidence.ts';
import { cableBike, healthyPattern, patternRide } from './pattern-ride.ts';

const rides = [0, 2, 4, 6, 8].map((day) =>
  patternRide({ day, pattern: healthyPattern, ghosts: [[5, 4]], skipsOn: [5], drops: [['chainring', null]] }),
);
const turnedAt = (ms: number): Adjustment => ({
  at: new Date(ms).toISOString(),
  parameter: 'cable-tension',
  amount: 1,
  unit: 'clicks',
  note: '',
});

describe('buildEvidence', () => {
  it('cuts a ride at a forgotten adjustment made during it', () => {
    const [straddling] = rides;
    // the moment of a shift: it came after the adjustment
    const cutS = straddling.events.shifts.find(({ timeS }) => timeS >= 1000)?.timeS ?? Number.NaN;
    const during = straddling.startMs + cutS * 1000;
    const between = [1, 3, 5, 7].map((day) => turnedAt(Date.UTC(2026, 4, 1 + day, 18)));
    const evidence = buildEvidence({ bike: cableBike, rides, adjustments: [turnedAt(during), ...between] });
    const later = straddling.events.shifts.filter(({ timeS }) => timeS >= cutS);
    const [first] = evidence.rides;
    expect(evidence.groups).toHaveLength(4);
    expect(first.startMs).toBe(during);
    expect(first.durationS).toBe(straddling.durationS - cutS);
    expect(first.events.shifts).toEqual(
      later.map((shift) => ({ ...shift, timeS: shift.timeS - cutS, lastTimeS: shift.lastTimeS - cutS })),
    );
    expect([first.events.ghostShifts, first.events.chainDrops, first.events.skips]).toEqual([[], [], []]);
    expect(first.events.pedallingSByCog[0]).toBeCloseTo(straddling.events.pedallingSByCog[0] * (1 - cutS / 7200), 9);
    expect(evidence.rides.slice(1)).toEqual(rides.slice(1));
  });

  it('watches for unasked shifts only as long as it was known which cog was asked for', () => {
    const [ride] = rides;
    const watchedS = (events: typeof ride.events): number => {
      const { segments } = buildEvidence({ bike: cableBike, rides: [{ ...ride, events }], adjustments: [] });
      return segments.reduce((sum, segment) => sum + segment.watchedS.reduce((a, b) => a + b, 0), 0);
    };
    const { events } = ride;
    const half = { ...events, watchedSByCog: events.pedallingSByCog.map((seconds) => seconds / 2) };
    expect(watchedS(events)).toBeGreaterThan(1000);
    expect(watchedS(half)).toBeCloseTo(watchedS(events) / 2, 6);
  });

  it('shares out shifts at the very moment of an adjustment as the comparison of adjustments does', () => {
    const [ride] = rides;
    const adjustments = [turnedAt(ride.startMs + ride.events.shifts[40].timeS * 1000)];
    const { segments } = buildEvidence({ bike: cableBike, rides: [ride], adjustments });
    const shiftsOf = (period: number): number =>
      segments.reduce((sum, segment) => sum + (segment.period === period ? segment.dropChances[2] : 0), 0);
    const { periods } = adjustmentPeriods([ride], adjustments);
    expect([0, 1].map(shiftsOf)).toEqual(periods.map(({ shifts }) => shifts.length));
    expect(shiftsOf(0)).toBe(40);
  });

  it('holds a part of the chains lost past an end for ones lost elsewhere where no gear change was recorded', () => {
    const [ride] = rides;
    const lost = patternRide({ day: 0, pattern: healthyPattern, drops: [['past-largest', 11]] });
    const dropsOf = (evidence: 'full' | 'ratio-only'): number[] => {
      const { segments } = buildEvidence({ bike: cableBike, rides: [{ ...ride, ...lost, evidence }], adjustments: [] });
      return [0, 1, 2].map((end) => segments.reduce((sum, { drops }) => sum + drops[end], 0));
    };
    const [past] = dropsOf('full');
    expect(dropsOf('full')).toEqual([past, 0, 0]);
    const [end, , elsewhere] = dropsOf('ratio-only');
    expect(end + elsewhere).toBeCloseTo(past, 12);
    expect(elsewhere).toBeGreaterThan(0.05 * past);
    expect(elsewhere).toBeLessThan(0.3 * past);
  });

  it('leaves out a chain that goes at last where it was asked to go: its missed shift counts already', () => {
    const [ride] = rides;
    const weighed = (towardsCommand: boolean) => {
      const ghostShifts = ride.events.ghostShifts.map((ghost) => ({ ...ghost, towardsCommand }));
      const { segments } = buildEvidence({
        bike: cableBike,
        rides: [{ ...ride, events: { ...ride.events, ghostShifts } }],
        adjustments: [],
      });
      return segments.flatMap(({ ghosts }) => [...ghosts]).reduce((sum, value) => sum + value, 0);
    };
    expect(weighed(false)).toBeCloseTo(0.9, 9);
    expect(weighed(true)).toBe(0);
  });

  it('leaves out shifts for which the chain had no cog to cross: they say nothing about the bike', () => {
    const [ride] = rides;
    const weighed = (cogsToCross: number) => {
      const shifts = ride.events.shifts.map((shift) => ({ ...shift, cogsToCross }));
      const { segments } = buildEvidence({
        bike: cableBike,
        rides: [{ ...ride, events: { ...ride.events, shifts } }],
        adjustments: [],
      });
      const total = (values: Iterable<number>): number => [...values].reduce((sum, value) => sum + value, 0);
      return segments.reduce((sum, { fits, timed }) => sum + total(fits.values()) + total(timed), 0);
    };
    expect(weighed(1)).toBeGreaterThan(100);
    expect(weighed(0)).toBe(0);
  });
});
