import { expect, it } from 'vitest';
import { transpose } from '../../src/numeric/transpose.ts';

it('swaps rows and columns', () => {
  expect([...transpose(Float64Array.of(1, 2, 3, 4, 5, 6, 7, 8, 9), 3)]).toEqual([1, 4, 7, 2, 5, 8, 3, 6, 9]);
});
