import { describe, expect, it } from 'vitest';
import { likeliestApart } from '../../src/shifts/drops/likeliest-apart.ts';

const timeS = Float64Array.from({ length: 100 }, (_, second) => second);

describe('likeliestApart', () => {
  it('keeps the likelier of two findings of one lost chain, whichever was found first', () => {
    const [weak, strong] = [
      { start: 30, logOdds: 0.4 },
      { start: 41, logOdds: 3 },
    ];
    expect(likeliestApart([weak, strong], timeS)).toEqual([strong]);
    expect(likeliestApart([strong, weak], timeS)).toEqual([strong]);
  });

  it('keeps findings apart in time, also two with a likelier one between', () => {
    const [first, between, last] = [20, 38, 56].map((start) => ({ start, logOdds: start === 38 ? 1 : 2 }));
    expect(likeliestApart([last, between, first], timeS)).toEqual([first, last]);
    expect(likeliestApart([first, { ...between, logOdds: 5 }, last], timeS)).toEqual([{ ...between, logOdds: 5 }]);
    const edge = { start: 40, logOdds: 1 };
    expect(likeliestApart([first, edge], timeS)).toEqual([first, edge]);
  });
});
