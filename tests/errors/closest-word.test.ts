import { describe, expect, it } from 'vitest';
import { closestWord, editDistance } from '../../src/errors/closest-word.ts';

describe('editDistance', () => {
  it.each([
    ['kitten', 'sitting', 3],
    ['', 'abc', 3],
    ['abc', '', 3],
    ['same', 'same', 0],
  ])('%s to %s takes %i edits', (a, b, edits) => {
    expect(editDistance(a, b)).toBe(edits);
  });
});

describe('closestWord', () => {
  it('finds the word meant, capitals aside, and none where nothing is near', () => {
    const keys = ['chainrings', 'cassette', 'rolloutMm', 'tyre'];
    expect(closestWord('casette', keys)).toBe('cassette');
    expect(closestWord('ROLLOUTMM', keys)).toBe('rolloutMm');
    expect(closestWord('tire', keys)).toBe('tyre');
    expect(closestWord('colour', keys)).toBeNull();
  });
});
