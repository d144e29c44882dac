import { describe, expect, it } from 'vitest';
import { verifyStep } from '../../src/diagnosis/next-step/verify-step.ts';
import { seen } from './made-facts.ts';

describe('the proof of a limit past which the chain was lost', () => {
  const proof = (lost: number, shifts: number): string =>
    verifyStep(
      'low-limit-loose',
      seen({ drops: () => lost, commandedOnto: () => shifts }),
      new Set(['past-largest'] as const),
    );

  it('asks for no more shifts on a stand than anybody makes there, and for the rest on rides', () => {
    expect(proof(3, 12)).toMatch(/make at least 10 shifts .* on a stand/);
    expect(proof(3, 12)).toMatch(
      /Once it does, make \d+ shifts onto it on purpose on rides, softly, away from traffic, since ordinary riding brings only a few: that would show that the chain is no longer lost past it\.$/,
    );
  });

  it('asks nobody to make a hundred shifts on purpose onto a cog past which the chain went', () => {
    expect(proof(1, 60)).toMatch(/make at least 10 shifts .* on a stand/);
    expect(proof(1, 60)).toMatch(
      /Once it does, shift onto it as riding asks for it, softly, away from traffic: \d{2,3} shifts would show that the chain is no longer lost past it, too many to make on purpose\.$/,
    );
  });
});
