import { describe, expect, it } from 'vitest';
import { slow, verdictOn } from './now/adjusted-bikes.ts';

const fine = { pattern: () => ({}), shifts: 20 };
const bad = { pattern: slow('to-larger', 0.2, 0.3), shifts: 20 };
const firstStep = (rides: Parameters<typeof verdictOn>[0]): string => verdictOn(rides).suggestion.steps[0];

describe('trouble that came with a part', () => {
  it('has that work looked over before anything is turned', () => {
    const { suggestion } = verdictOn([fine, { ...bad, after: ['cassette', null] }, bad]);
    expect(suggestion.steps[0]).toMatch(
      /^First look at what was done on 2026-05-\d\d \(cassette\), since the trouble came with it: whether its lockring is tight, no spacer .* indexing and both limits still fit/,
    );
    expect(suggestion.steps.length).toBeGreaterThan(1);
    expect(suggestion.start).toMatch('Look over that work before anything is turned.');
    expect(firstStep([fine, { ...bad, after: ['chain', null] }, bad])).toMatch(/\(chain\).*no stiff link\.$/);
  });

  it('is not laid to one that changed nothing, or to one before which there was as much', () => {
    expect(firstStep([bad, { ...bad, after: ['cassette', null] }, bad])).not.toMatch(/look at what was done/);
    expect(firstStep([fine, { ...fine, after: ['cassette', null] }, bad, bad])).not.toMatch(/look at what was done/);
  });

  it('is not laid to one that was seen to since', () => {
    const rides = [fine, { ...bad, after: ['wheel', null] as const }, { ...bad, after: ['wheel', null] as const }, bad];
    expect(firstStep(rides)).not.toMatch(/look at what was done/);
    expect(firstStep([fine, { ...bad, after: ['wheel', null] }, { ...fine, after: ['cable-tension', 3] }])).not.toMatch(
      /look at what was done/,
    );
  });
});
