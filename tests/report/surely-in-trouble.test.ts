import { expect, it } from 'vitest';
import { wilsonInterval } from '../../src/numeric/wilson-interval.ts';
import { bySurestTrouble, surelyInTrouble } from '../../src/report/surely-in-trouble.ts';

it('is the low end of the interval, with at least ten shifts of which those that are wanting went well', () => {
  expect(surelyInTrouble({ shifts: 200, troubleRate: 0.4 })).toBe(wilsonInterval(80, 200).low);
  expect(surelyInTrouble({ shifts: 5, troubleRate: 1 })).toBe(wilsonInterval(5, 10).low);
  expect(surelyInTrouble({ shifts: 0, troubleRate: null })).toBe(0);
});

it('sets hundreds at two in five before five that all went wrong, and these before few of many', () => {
  const tried = [
    { shifts: 200, troubleRate: 0.1 },
    { shifts: 5, troubleRate: 1 },
    { shifts: 0, troubleRate: null },
    { shifts: 200, troubleRate: 0.4 },
  ];
  expect([...tried].sort(bySurestTrouble).map(({ shifts, troubleRate }) => [shifts, troubleRate])).toEqual([
    [200, 0.4],
    [5, 1],
    [200, 0.1],
    [0, null],
  ]);
});
