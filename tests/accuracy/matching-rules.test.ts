import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ShiftEvent } from '../../src/shifts/ride-events.ts';
import { simulateRides } from '../../src/simulate/simulate-rides.ts';
import type { TrueShift } from '../../src/simulate/truth/truth-schema.ts';
import { detectEvents } from './detect-events.ts';
import { matchByTime } from './match-by-time.ts';
import { pairShifts, rightOutcomes, settledSeconds } from './matching-rules.ts';
import { ridePlan } from './ride-plan.ts';
import { addScores, f1Of, noScore, precisionOf, recallOf } from './ride-score.ts';

const shift = (changes: Partial<TrueShift>): TrueShift => ({
  atS: 100,
  recordedAtS: 100,
  lastCommandS: 100,
  fromTeeth: 13,
  toTeeth: 15,
  direction: 'to-larger',
  commands: 1,
  outcome: 'clean',
  crankRevs: 0.5,
  crankRevsFromFirst: 0.5,
  settledS: 100.4,
  tensionN: 300,
  ...changes,
});

describe('matchByTime', () => {
  it('pairs the closest first, one to one, and leaves the rest alone', () => {
    expect([...matchByTime([10, 20], [21, 12], 5)]).toEqual([1, 0]);
    expect([...matchByTime([10, 11], [11], 5)]).toEqual([-1, 0]);
    expect([...matchByTime([10], [15, 16], 5)]).toEqual([0]);
    expect([...matchByTime([10], [15.1], 5)]).toEqual([-1]);
    expect([...matchByTime([10], [10], 5, () => false)]).toEqual([-1]);
  });

  it('never gives one report to two truths, nor pairs beyond the limit', () => {
    const times = fc.array(fc.double({ min: 0, max: 60, noNaN: true }), { maxLength: 12 });
    fc.assert(
      fc.property(times, times, (truth, reported) => {
        const pairs = [...matchByTime(truth, reported, 5)];
        const taken = pairs.filter((r) => r >= 0);
        expect(new Set(taken).size).toBe(taken.length);
        pairs.forEach((r, t) => {
          if (r >= 0) expect(Math.abs(reported[r] - truth[t])).toBeLessThanOrEqual(5);
        });
      }),
    );
  });
});

describe('rightOutcomes', () => {
  it('lets a shift within a quarter turn of a limit be judged either way', () => {
    expect(rightOutcomes(shift({ outcome: 'clean', crankRevs: 1.2 }))).toEqual(['clean']);
    expect(rightOutcomes(shift({ outcome: 'clean', crankRevs: 1.25 }))).toEqual(['clean', 'late']);
    expect(rightOutcomes(shift({ outcome: 'late', crankRevs: 1.7 }))).toEqual(['clean', 'late']);
    expect(rightOutcomes(shift({ outcome: 'late', crankRevs: 4.9 }))).toEqual(['late', 'missed']);
    expect(rightOutcomes(shift({ outcome: 'missed', crankRevs: 5.2 }))).toEqual(['late', 'missed']);
    expect(rightOutcomes(shift({ outcome: 'missed', crankRevs: 5.3 }))).toEqual(['missed']);
    expect(rightOutcomes(shift({ outcome: 'missed', crankRevs: null }))).toEqual(['missed']);
    expect(rightOutcomes(shift({ outcome: 'overshot', crankRevs: 1.5 }))).toEqual(['overshot']);
  });
});

describe('pairShifts', () => {
  it('asks for the recorded time within 2 s and for the same cogs', () => {
    const event = (timeS: number, fromCog: number, toCog: number) => ({ timeS, fromCog, toCog }) as ShiftEvent;
    const cassette = [11, 13, 15];
    const truth = [shift({ recordedAtS: 50 }), shift({ recordedAtS: 80, fromTeeth: 15, toTeeth: 13 })];
    expect([...pairShifts(truth, [event(81, 2, 1), event(52, 1, 2)], cassette)]).toEqual([1, 0]);
    expect([...pairShifts(truth, [event(81, 2, 0), event(52.5, 1, 2)], cassette)]).toEqual([-1, -1]);
  });
});

describe('detectEvents', () => {
  it('counts found, overlooked and wrong, and lets events that are not scored be partners', () => {
    const truth = [10, 50, 90].map((atS) => ({ atS, heldS: atS === 90 ? 2 : 9 }));
    const reported = [12, 70, 91].map((timeS) => ({ timeS, heldS: 9 }));
    const { counts, overlooked, unmatched } = detectEvents(truth, reported, ({ heldS }) => heldS > 3);
    expect(counts).toEqual({ found: 1, overlooked: 1, wrong: 1 });
    expect(overlooked).toEqual([1]);
    expect(unmatched).toEqual([1]);
  });
});

describe('settledSeconds', () => {
  const [{ truth }] = simulateRides({ ...ridePlan(1, 3, 1)[0].options, durationS: 600 });
  const settled = settledSeconds(truth);

  it('lie 4 s or more after every command and every change of cog or ring, in driving pedalling', () => {
    expect(settled.filter((s) => s === 1).length).toBeGreaterThan(60);
    settled.forEach((is, s) => {
      if (!is) return;
      const since = (atS: number): boolean => atS > s || s - atS >= 4;
      expect(truth.commands.every(({ atS, recordedAtS }) => since(atS) && since(recordedAtS))).toBe(true);
      expect(truth.gears.every(({ atS }) => since(atS))).toBe(true);
      expect(truth.perSecond.driving[s]).toBe(1);
      expect(truth.perSecond.cadenceRpm[s]).toBeGreaterThan(30);
    });
  });
});

describe('scores', () => {
  it('add up', () => {
    const one = { ...noScore(), missed: { found: 3, overlooked: 1, wrong: 2 } };
    const sum = addScores(one, one);
    expect(sum.missed).toEqual({ found: 6, overlooked: 2, wrong: 4 });
    expect([precisionOf(sum.missed), recallOf(sum.missed)]).toEqual([0.6, 0.75]);
    expect(f1Of(sum.missed)).toBeCloseTo((2 * 0.6 * 0.75) / (0.6 + 0.75), 12);
    expect(addScores(noScore(), one)).toEqual(one);
  });
});

describe('ridePlan', () => {
  it('holds every cause with both speed sources, one ring and two, in 48 hours', () => {
    const plan = ridePlan(48, 1, 1);
    const kinds = plan.map(
      ({ options }) => `${options.cause} ${options.speedSource} ${options.bike.chainrings.length}`,
    );
    expect(new Set(kinds).size).toBe(48);
    expect(new Set(plan.map(({ options }) => options.seed)).size).toBe(48);
  });

  it('gives the same rides at another noise', () => {
    const bare = ridePlan(5, 2, 1).map(({ options }) => ({ ...options, noiseScale: 2 }));
    expect(ridePlan(5, 2, 2).map(({ options }) => options)).toEqual(bare);
  });
});
