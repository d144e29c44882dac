import { expect, it } from 'vitest';
import { longestStepS } from '../../src/shifts/turns/longest-step.ts';

const timeS = Float64Array.of(0, 1, 2, 6, 7, 8, 15);

it('is the longest step that the time touches, also one of which it holds only a part', () => {
  expect(longestStepS(timeS, 0.5, 2)).toBe(1);
  expect(longestStepS(timeS, 0.5, 2.1)).toBe(4);
  expect(longestStepS(timeS, 3, 4)).toBe(4);
  expect(longestStepS(timeS, 6, 7.5)).toBe(1);
  expect(longestStepS(timeS, 0, 15)).toBe(7);
});

it('is endless where the ride does not reach', () => {
  expect(longestStepS(timeS, -1, 3)).toBe(Number.POSITIVE_INFINITY);
  expect(longestStepS(timeS, 7, 16)).toBe(Number.POSITIVE_INFINITY);
  expect(longestStepS(timeS, 7, Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
});
