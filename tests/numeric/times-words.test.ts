import { expect, it } from 'vitest';
import { timesWords } from '../../src/numeric/times-words.ts';

it('says how often in words where there are any', () => {
  expect([0, 1, 2, 3, 1200].map(timesWords)).toEqual(['0 times', 'once', 'twice', '3 times', '1,200 times']);
});
