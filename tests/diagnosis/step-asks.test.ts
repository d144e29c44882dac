import { expect, it } from 'vitest';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import type { SuggestionFacts } from '../../src/diagnosis/next-step/suggestion-facts.ts';
import { count, facts, now, seen } from './made-facts.ts';

const inOrder = (changes: Partial<SuggestionFacts> = {}) =>
  suggest(facts({ ranked: [{ cause: 'no-fault', probability: 0.98 }], ...changes })).asks;

it('a bike in order asks for nothing, or for a few shifts onto an end cog that was hardly used', () => {
  expect(inOrder()).toBe('nothing');
  expect(inOrder({ seen: seen({ shifts: () => count(2, 0) }) })).toBe('shifts');
});

it('a look, a chain that came off or a part to be mended is something to do', () => {
  expect(inOrder({ drops: (side) => (side === 'chainring' ? 1 : 0) })).toBeUndefined();
  expect(inOrder({ now: now({ keepOff: new Set(['past-largest'] as const) }) })).toBeUndefined();
  expect(suggest(facts({ seen: seen({ all: count(600, 60) }) })).asks).toBeUndefined();
});

it('what a logged entry put right asks for nothing more', () => {
  const at = '2026-05-07T12:00:00Z';
  const wellSince = { at, shifts: 200, trouble: 1, there: { shifts: 90, trouble: 1, direction: null } };
  const asks = (entryAt: string | null) =>
    suggest(
      facts({
        wellSince: { ...wellSince, putRight: true, adjusted: true, entryAt } as unknown as SuggestionFacts['wellSince'],
      }),
    ).asks;
  expect(asks(at)).toBe('nothing');
  expect(asks(null)).toBeUndefined();
});
