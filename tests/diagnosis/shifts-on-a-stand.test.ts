import { expect, it } from 'vitest';
import { verifyStep } from '../../src/diagnosis/next-step/verify-step.ts';
import { seen } from './made-facts.ts';

it('asks for no more shifts on a stand than anybody makes there, and for the rest on rides', () => {
  const rare = seen({ drops: () => 1, commandedOnto: () => 60 });
  const proof = verifyStep('low-limit-loose', rare, new Set(['past-largest'] as const));
  expect(proof).toMatch(/make at least 10 shifts .* on a stand/);
  expect(proof).toMatch(
    /Once it does, make \d+ shifts onto it on purpose on rides, softly, away from traffic, since ordinary riding brings only a few: that would show that the chain is no longer lost past it\.$/,
  );
});
