import { describe, expect, it } from 'vitest';
import { wayLikelihoods, weighStory } from '../../src/shifts/outcomes/weigh-story.ts';
import type { ShiftStories, StoryByTurns } from '../../src/shifts/stories/shift-stories.ts';
import {
  cleanDensity,
  evenDensity,
  lateDensity,
  REV_STEP,
  REVS,
  slowDensity,
  veryLateDensity,
} from '../../src/shifts/stories/turn-chances.ts';

const shares = { clean: 0.3, slow: 0, late: 0.5, veryLate: 0.03, never: 0.15, overshot: 0.02 };
const arrived: readonly StoryByTurns[] = [
  { name: 'straight', way: 'clean', byTurns: cleanDensity },
  { name: 'straight-late', way: 'late', byTurns: lateDensity },
  { name: 'straight-very-late', way: 'veryLate', byTurns: veryLateDensity },
];
const told: ShiftStories = { stories: arrived, stepsPedalled: REVS, alreadyThere: false };
const times = (factor: number): Float64Array => evenDensity.map((value) => factor * value);

describe('a chain that already lay on the commanded cog', () => {
  const there = { ...told, alreadyThere: true };

  it('cannot come there late, whatever the share of late shifts', () => {
    expect(weighStory(told, shares).probability.late).toBeGreaterThan(0.5);
    const { probability, crankRevs } = weighStory(there, shares);
    expect(probability).toEqual({ clean: 1, late: 0, missed: 0, overshot: 0 });
    expect(crankRevs('clean')).toBe(0);
    expect(weighStory({ ...there, stepsPedalled: 1 }, shares).probability.clean).toBe(1);
  });

  it('can still leave it, beyond or back', () => {
    const left: StoryByTurns[] = [
      { name: 'stopped-short', way: 'never', byTurns: times(15) },
      { name: 'ran-on', way: 'overshot', byTurns: times(100) },
    ];
    const { clean, late, missed, overshot } = weighStory(
      { ...there, stories: [...arrived, ...left] },
      shares,
    ).probability;
    expect(clean + missed + overshot).toBeCloseTo(1, 12);
    expect(late).toBe(0);
    expect(Math.min(missed, overshot)).toBeGreaterThan(0.2);
  });
});

describe('the stories of a shift', () => {
  it('of one way add up', () => {
    const stories: StoryByTurns[] = [
      { name: 'stayed', way: 'never', byTurns: times(0.5) },
      { name: 'stopped-short', way: 'never', byTurns: times(0.25) },
      { name: 'went-beyond', way: 'overshot', byTurns: times(0.125) },
      { name: 'ran-on', way: 'overshot', byTurns: times(2) },
    ];
    const ways = wayLikelihoods({ stories: [...arrived, ...stories] });
    for (const way of ['clean', 'late', 'veryLate'] as const) expect(ways[way]).toBeCloseTo(1, 12);
    expect([ways.never, ways.overshot].map((value) => value.toFixed(12))).toEqual(['0.750000000000', '2.125000000000']);
  });

  it('tell a shift as missed in which the chain came only after the rider had shifted again', () => {
    const stepsPedalled = 2 / REV_STEP;
    const { probability } = weighStory({ ...told, stepsPedalled }, shares);
    const lateInTime = shares.late * lateDensity.subarray(0, stepsPedalled).reduce((a, b) => a + b, 0);
    const all = shares.clean + shares.late + shares.veryLate;
    expect(probability.late).toBeCloseTo(lateInTime / all, 12);
    expect(probability.missed).toBeCloseTo((shares.late - lateInTime + shares.veryLate) / all, 12);
  });

  it('that come slowly in time are clean, and leave the turns of clean ones as they usually are', () => {
    const slowly: StoryByTurns = { name: 'straight-slow', way: 'slow', byTurns: slowDensity };
    const half = { ...shares, clean: 0.15, slow: 0.15 };
    const { probability, crankRevs } = weighStory({ ...told, stories: [...arrived, slowly] }, half);
    expect(probability.clean).toBeCloseTo(weighStory(told, shares).probability.clean, 12);
    expect(crankRevs('clean')).toBeCloseTo(weighStory(told, shares).crankRevs('clean'), 12);
  });

  it('take as many turns as their way does on average', () => {
    const { crankRevs } = weighStory(told, shares);
    const mean = (chances: Float64Array): number => chances.reduce((sum, c, k) => sum + c * (k + 0.5) * REV_STEP, 0);
    expect(crankRevs('clean')).toBeCloseTo(mean(cleanDensity), 12);
    expect(crankRevs('late')).toBeCloseTo(mean(lateDensity), 12);
  });
});
