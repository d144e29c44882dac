import { expect, it } from 'vitest';
import { assumptions } from '../../src/diagnosis/assumptions.ts';
import indexing from '../checks/indexing.json' with { type: 'json' };

it('a click moves the pulley as far as thread, shift ratio and clicks a turn say', () => {
  const { low, high } = assumptions.clickMm;
  expect([low, high].map((mm) => mm.toFixed(3))).toEqual(['0.100', '0.350']);
  // the ends of the stated ranges by hand: 0.8 mm a turn, ratio 1.1 over 8.8 clicks, ratio 1.7 over 3.886
  expect(low).toBeCloseTo((0.8 * 1.1) / 8.8, 9);
  expect(high).toBeCloseTo((0.8 * 1.7) / 3.886, 9);
});

it.each(indexing.barrel.rows)(
  'a click may move the pulley as a quarter turn does at shift ratio $ratio',
  ({ travelMm }) => {
    expect(travelMm).toBeGreaterThan(assumptions.clickMm.low);
    expect(travelMm).toBeLessThan(assumptions.clickMm.high);
  },
);
