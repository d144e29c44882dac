import { describe, expect, it } from 'vitest';
import { wayLikelihoods, weighStory } from '../../src/shifts/outcomes/weigh-story.ts';
import type { ShiftStories } from '../../src/shifts/stories/shift-stories.ts';
import { REVS } from '../../src/shifts/stories/shift-timing.ts';

const shares = { clean: 0.3, late: 0.5, veryLate: 0.03, never: 0.15, overshot: 0.02 };
const even = new Float64Array(REVS).fill(1);
const story: ShiftStories = {
  revs: even,
  lateLikelihood: even,
  never: 0,
  short: 0,
  beyond: 0,
  stepsPedalled: REVS,
  alreadyThere: false,
  over: 1,
};

describe('a chain that already lay on the commanded cog', () => {
  const there = { ...story, alreadyThere: true, over: 0 };

  it('cannot come there late, whatever the share of late shifts', () => {
    expect(weighStory(story, shares).probability.late).toBeGreaterThan(0.5);
    const { probability, crankRevs } = weighStory(there, shares);
    expect(probability).toEqual({ clean: 1, late: 0, missed: 0, overshot: 0 });
    expect(crankRevs('clean')).toBe(0);
    expect(weighStory({ ...there, stepsPedalled: 1 }, shares).probability.clean).toBe(1);
  });

  it('can still leave it, beyond or back', () => {
    const { clean, late, missed, overshot } = weighStory({ ...there, beyond: 100, short: 100 }, shares).probability;
    expect(clean + missed + overshot).toBeCloseTo(1, 12);
    expect(late).toBe(0);
    expect(Math.min(missed, overshot)).toBeGreaterThan(0.2);
  });
});

describe('a chain that stopped on a cog between', () => {
  it('was missed the more likely the more cogs lie between', () => {
    const halted = { ...story, revs: new Float64Array(REVS), lateLikelihood: new Float64Array(REVS), short: 1 };
    const [one, two, four] = [1, 2, 4].map((over) => wayLikelihoods({ ...halted, over }).never);
    expect([one, two, four]).toEqual([0.15, 0.5, 0.5]);
  });

  it('counts for what is left of the stories of a miss', () => {
    const stayed = { ...story, never: 1 };
    expect([1, 2].map((over) => wayLikelihoods({ ...stayed, over }).never)).toEqual([0.85, 0.5]);
  });
});
