import { describe, expect, it } from 'vitest';
import type { CassetteEnd } from '../../src/adjustments/end-cog-count.ts';
import type { Suggestion } from '../../src/diagnosis/diagnosis.ts';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import type { Fault, SuggestionFacts } from '../../src/diagnosis/next-step/suggestion-facts.ts';
import { tellApartFirst } from '../../src/diagnosis/next-step/tell-apart-first.ts';
import { count, facts, now, seen } from './made-facts.ts';

const failing = seen({ all: count(600, 40) });
const stepFor = (cause: Fault, changes: Partial<SuggestionFacts> = {}): Suggestion =>
  suggest(
    facts({
      seen: failing,
      ranked: [{ cause, probability: 0.9 }],
      now: now({ cause, fault: cause }),
      ...changes,
    }),
  );
const openBetween = (...between: readonly [Fault, Fault]): Partial<SuggestionFacts> => ({
  undecided: { between, becauseOf: ['x'], sentence: 'Undecided.' },
});
const lostPast =
  (end: CassetteEnd): SuggestionFacts['drops'] =>
  (side) =>
    side === end ? 1 : 0;

describe('a limit past which the chain goes', () => {
  it.each(['low-limit-loose', 'high-limit-loose'] as const)('is looked at before its screw is turned: %s', (cause) => {
    for (const electronic of [false, true]) {
      const { action, start } = stepFor(cause, { electronic });
      expect(action).toMatch(
        cause === 'low-limit-loose' ? /^Have the hanger gauged, above all .*;/ : /^Look whether the hanger is bent;/,
      );
      expect(action).toMatch(/; then see on a stand .* no further\. If it goes further, turn the/);
      expect(action).toMatch(/If not, leave the screw as it is\.$/);
      expect(start).toMatch(/ook on a stand\. Only where .*a quarter of a turn clockwise/);
      if (electronic) expect(action).not.toMatch(/cable/);
    }
  });

  it('is told that what was turned before was not enough, but not where the fault began only then', () => {
    const turned = now({ cause: 'high-limit-loose', fault: 'high-limit-loose', turnedSoFar: 0.25 });
    expect(stepFor('high-limit-loose', { now: turned }).start).toMatch(/^0\.25 turns clockwise were not enough\. Look/);
    const onset = { kind: 'sudden', at: null, rideBeforeAt: null, probability: 0.9 } as const;
    expect(stepFor('high-limit-loose', { now: turned, onset }).action).not.toMatch(/not enough/);
  });
});

describe('a pulley gap', () => {
  const small = { cause: 'pulley-gap-small', probability: 0.48 } as const;
  const large = (probability: number) => ({ cause: 'pulley-gap-large', probability }) as const;

  it('is measured and given no direction where it may as well be out the other way', () => {
    const step = stepFor('pulley-gap-small', {
      ranked: [small, { cause: 'cable-tension-low', probability: 0.25 }, large(0.25)],
      ...openBetween('pulley-gap-small', 'cable-tension-low'),
      clicksFor: () => ({ parameter: 'cable-tension', unit: 'clicks', mean: 3, low: 1, high: 5 }),
    });
    expect(step.action).toMatch(/measure the gap .* set it to the maker's figure\. These rides do not tell/);
    expect(step.action).not.toMatch(/[Hh]alf a turn (anti)?clockwise|turn the B-screw/);
    expect(step.sense).toBeNull();
  });

  it('is open between both ways in one step alone', () => {
    const { steps } = stepFor('pulley-gap-small', {
      ranked: [small, large(0.4)],
      ...openBetween('pulley-gap-small', 'pulley-gap-large'),
    });
    expect(steps).toHaveLength(1);
    expect(steps[0]).toMatch(/turn nothing before it is measured/);
  });

  it('is measured first, but turned the way that the rides tell where they do', () => {
    const step = stepFor('pulley-gap-small', { ranked: [{ ...small, probability: 0.9 }, large(0.05)] });
    expect(step.action).toMatch(/^Measure the gap .* By these rides it is too small: turn the B-screw clockwise/);
    expect(step.sense).toBe(1);
  });

  it.each([
    ['pulley-gap-small', /widen it, but only where it measures so\. .* right, leave it .* too large, narrow it/],
    ['pulley-gap-large', /narrow it, but only where it measures so\. .* right, leave it .* too small, widen it/],
  ] as const)('is never turned against the measure: %s', (cause, said) => {
    expect(stepFor(cause).action).toMatch(said);
  });
});

describe('where it is open between a fault and a limit that would be opened', () => {
  it.each([
    ['past-largest', 'low-limit-tight', /look at the low limit screw too\. .* and no further\.$/],
    ['past-smallest', 'high-limit-tight', /look at the high limit screw too\. .* and no further\.$/],
  ] as const)('a chain lost %s has that limit looked at, and nothing said of one too far in', (end, tight, look) => {
    const between = openBetween('pulley-gap-large', tight);
    const ranked = [
      { cause: 'pulley-gap-large', probability: 0.55 },
      { cause: tight, probability: 0.4 },
    ] as const;
    const { steps } = stepFor('pulley-gap-large', { ranked, ...between, drops: lostPast(end) });
    expect(steps.at(-1)).toMatch(look);
    expect(steps.join(' ')).not.toMatch(/too far in/);
    expect(stepFor('pulley-gap-large', { ranked, ...between }).action).toMatch(/too far in/);
  });
});

describe('a bent hanger', () => {
  it('has clicks put back only where some were logged', () => {
    expect(stepFor('hanger-bent').start).toBe('Gauge first.');
  });
});

it('is looked for where shifts plainly fail: an end of the cassette that they do not reach is left alone', () => {
  const step = (direction: 'to-larger' | 'to-smaller'): string => {
    const known = {
      ...openBetween('pulley-gap-small', 'high-limit-tight'),
      failsPlainly: { direction, cog: null },
      seen: failing,
    };
    const { start, steps } = tellApartFirst(facts(known), 'it is open which');
    return [start, ...steps].join(' ');
  };
  expect(step('to-larger')).not.toMatch(/smallest cog/);
  expect(step('to-smaller')).toMatch(/smallest cog/);
});
