import { describe, expect, it } from 'vitest';
import { andOthers } from '../../src/numeric/and-others.ts';
import { listed, listedUpTo } from '../../src/numeric/listed.ts';

describe('lists in a sentence', () => {
  it('join as people do', () => {
    expect([[], ['a'], ['a', 'b'], ['a', 'b', 'c']].map(listed)).toEqual(['', 'a', 'a and b', 'a, b and c']);
  });

  it('name so many, and count the rest', () => {
    expect([1, 2, 3].map((most) => listedUpTo(most, ['a', 'b', 'c']))).toEqual([
      'a and 2 more',
      'a, b and 1 more',
      'a, b and c',
    ]);
    expect([1, 2, 3].map((most) => andOthers(most, ['a', 'b', 'c']))).toEqual([
      'a and 2 others',
      'a, b and 1 other',
      'a, b, c',
    ]);
  });
});
