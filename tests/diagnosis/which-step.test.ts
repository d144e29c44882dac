import { expect, it } from 'vitest';
import type { VerdictFacts } from '../../src/diagnosis/next-step/which-step.ts';
import { whichStep } from '../../src/diagnosis/next-step/which-step.ts';
import { count, facts, seen } from './made-facts.ts';

const inOrder = (probability: number, changes: Partial<VerdictFacts> = {}) =>
  whichStep({
    ...facts({ seen: seen({ all: count(600, 60) }) }),
    ranked: [
      { cause: 'no-fault', probability },
      { cause: 'cable-tension-low', probability: 1 - probability },
    ],
    ...changes,
  }).kind;

it('newest rides that shift well come before easing off, which was asked for by those before them', () => {
  const rider = { ...facts().rider, goneWithSoftLegs: true };
  const wellSince = {
    ...{ at: '2026-05-07T12:00:00Z', shifts: 200, trouble: 1, there: { shifts: 90, trouble: 1, direction: null } },
    ...{ putRight: false, adjusted: false, entryAt: null },
  } as unknown as NonNullable<VerdictFacts['wellSince']>;
  expect(inOrder(0.4, { rider })).toBe('ease-off');
  expect(inOrder(0.4, { rider, wellSince })).toBe('put-right');
});

it('on a bike in order the rider eases off where hard legs are likelier than not to make the trouble', () => {
  const kind = (probability: number) => inOrder(0.97, { rider: { ...facts().rider, probability } });
  expect([kind(0.45), kind(0.5), kind(0.55)]).toEqual(['in-order', 'in-order', 'ease-off']);
});
