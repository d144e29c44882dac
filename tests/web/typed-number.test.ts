import { expect, it } from 'vitest';
import { typedNumber } from '../../web/words/typed-number.ts';

it.each([
  ['0,5', 0.5],
  ['0.5', 0.5],
  [' 2 ', 2],
  [',25', 0.25],
  ['1.', 1],
  ['-1,5', -1.5],
  ['−1', -1],
])('reads %s as people mean it', (text, value) => {
  expect(typedNumber(text)).toBe(value);
});

it.each(['', ' ', ',', 'two', '1 000', '1.000,5', '1e3', '0x10', 'Infinity'])('takes “%s” for no number', (text) => {
  expect(typedNumber(text)).toBeNaN();
});
