import { expect, it } from 'vitest';
import { joinDistances } from '../../src/ride-log/rising-distance.ts';

/** The distances joined, and how many were set aside. */
function joined(distances: readonly number[], starts: readonly number[]): [number[], number] {
  const distanceM = Float64Array.from(distances);
  const setAside = joinDistances(distanceM, starts);
  return [[...distanceM], setAside];
}

it('a run that begins anew counts from where the one before ended', () => {
  expect(joined([0, 10, 20, 0, 10, 5, 7], [0, 3, 5])).toEqual([[0, 10, 20, 20, 30, 35, 37], 0]);
});

it('a run that goes on where the one before ended is not added to it again', () => {
  expect(joined([0, 10, 20, 25, 30, 0, 4], [0, 3, 5])).toEqual([[0, 10, 20, 25, 30, 30, 34], 0]);
});

it('values out of step within a run are set aside', () => {
  expect(joined([0, 10, 12, 5, 20, -1], [0])).toEqual([[0, 10, 12, Number.NaN, 20, Number.NaN], 2]);
});
