import { describe, expect, it } from 'vitest';
import type { CommandedShift } from '../../src/shifts/commands/commanded-shifts.ts';
import { arrivedStories } from '../../src/shifts/stories/arrived-stories.ts';
import type { ChainPaths } from '../../src/shifts/stories/chain-paths.ts';
import { cogsInQuestion } from '../../src/shifts/stories/cogs-in-question.ts';
import { missedStories } from '../../src/shifts/stories/missed-stories.ts';
import { overshotStories } from '../../src/shifts/stories/overshot-stories.ts';
import { type Story, WAYS, type Way } from '../../src/shifts/stories/story.ts';

const COGS = 11;
/** Paths that carry in their one number where they lead. */
const paths: ChainPaths = {
  staying: Float64Array.of(-1),
  straightTo: (finalCog) => Float64Array.of(finalCog),
  haltingOn: (haltCog, finalCog) => Float64Array.of(100 * haltCog + finalCog),
};

function storiesOf(fromCog: number, toCog: number, startCog = fromCog, nextCog = -1): Story[] {
  const shift = { fromCog, toCog } as CommandedShift;
  const context = {
    startCog,
    mostCogs: Math.max(Math.abs(toCog - startCog), Math.abs(toCog - fromCog)),
    after: nextCog < 0 ? null : { cog: nextCog, shownS: 0 },
  };
  const { short, beyond } = cogsInQuestion(shift, context, COGS);
  return [
    ...arrivedStories(paths, shift, context),
    ...missedStories(paths, shift, context, short),
    ...overshotStories(paths, shift, context, beyond),
  ];
}
const told = (stories: Story[]) => stories.map(({ name, finalCog, byArrival }) => [name, finalCog, byArrival[0]]);
const shareOf = (stories: Story[], way: Way): number =>
  stories.filter((story) => story.way === way).reduce((sum, { share }) => sum + share, 0);

describe('the stories in question', () => {
  it('of one cog: there, stayed, beyond, run on', () => {
    expect(told(storiesOf(3, 4))).toEqual([
      ['straight', 4, 4],
      ['straight-slow', 4, 4],
      ['straight-late', 4, 4],
      ['straight-very-late', 4, 4],
      ['stayed', 3, -1],
      ['went-beyond', 5, 5],
      ['went-beyond', 6, 6],
      ['ran-on', 5, 405],
    ]);
  });

  it('of several cogs: also late by the last cog alone, and stopped on one between', () => {
    expect(told(storiesOf(8, 5))).toEqual([
      ['straight', 5, 5],
      ['straight-slow', 5, 5],
      ['straight-late', 5, 5],
      ['straight-very-late', 5, 5],
      ['last-cog-late', 5, 605],
      ['last-cog-very-late', 5, 605],
      ['stayed', 8, -1],
      ['stopped-short', 7, 7],
      ['stopped-short', 6, 6],
      ['went-beyond', 4, 4],
      ['went-beyond', 3, 3],
      ['ran-on', 4, 504],
    ]);
  });

  it('of a missed shift over several cogs: the further from the commanded cog, the less likely, the one it left with them', () => {
    const missed = storiesOf(8, 4).filter(({ way }) => way === 'never');
    const byDistance = missed.toSorted((a, b) => a.finalCog - b.finalCog).map(({ share }) => share);
    expect(byDistance).toHaveLength(4);
    for (let i = 1; i < byDistance.length; i++) expect(byDistance[i]).toBeLessThan(byDistance[i - 1] / 2);
    expect(byDistance.reduce((a, b) => a + b)).toBeCloseTo(1, 9);
  });

  it('go beyond neither past the last cog nor where the next shift goes on that way', () => {
    const beyond = (stories: Story[]) =>
      stories.filter(({ way }) => way === 'overshot').map(({ finalCog }) => finalCog);
    expect(beyond(storiesOf(9, 10))).toEqual([]);
    expect(beyond(storiesOf(2, 1))).toEqual([0, 0]);
    expect(beyond(storiesOf(3, 4, 3, 5))).toEqual([]);
    expect(beyond(storiesOf(3, 4, 3, 3))).toEqual([5, 6, 5]);
  });

  it('of a chain that was already there: it can only stay or go past', () => {
    const names = new Set(storiesOf(3, 4, 4).map(({ name }) => name));
    expect([...names]).toEqual(['straight', 'straight-slow', 'straight-late', 'straight-very-late', 'went-beyond']);
  });

  it('of a chain that lay past the commanded cog: none runs on where it comes from', () => {
    expect(told(storiesOf(3, 4, 6)).slice(6)).toEqual([
      ['stayed', 6, -1],
      ['went-beyond', 5, 5],
    ]);
  });
});

describe('shares of the stories', () => {
  it.each([
    ['several cogs', storiesOf(3, 6)],
    ['several cogs, to smaller', storiesOf(7, 3)],
  ])('of each way sum to 1: %s', (_, stories) => {
    for (const way of WAYS) expect(shareOf(stories, way)).toBeCloseTo(1, 12);
  });

  it.each([
    ['was already there', storiesOf(3, 4, 4)],
    ['lay past the commanded cog', storiesOf(3, 4, 6)],
  ])('beyond it are whole where the chain cannot run on: it %s', (_, stories) => {
    expect(stories.some(({ name }) => name === 'ran-on')).toBe(false);
    expect(shareOf(stories, 'overshot')).toBeCloseTo(1, 12);
  });

  it('of a miss by one cog keep a part for a start that the trace mistook', () => {
    const single = storiesOf(3, 4);
    for (const way of ['clean', 'late', 'veryLate', 'overshot'] as const)
      expect(shareOf(single, way)).toBeCloseTo(1, 12);
    expect(shareOf(single, 'never')).toBe(0.85);
    // another reading has it start further off: there it has come to this very cog, and stopped beside the commanded one
    expect(shareOf(storiesOf(2, 4, 3), 'never')).toBe(1);
  });

  it('each story has chances of its turns that sum to 1', () => {
    for (const { turnChances } of storiesOf(3, 6)) expect(turnChances.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
  });
});
