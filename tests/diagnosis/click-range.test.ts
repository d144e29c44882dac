import { expect, it } from 'vitest';
import { assumptions } from '../../src/diagnosis/assumptions.ts';
import indexing from '../checks/indexing.json' with { type: 'json' };

it.each(indexing.barrel.rows)(
  'a click may move the pulley as a quarter turn does at shift ratio $ratio',
  ({ travelMm }) => {
    expect(travelMm).toBeGreaterThan(assumptions.clickMm.low);
    expect(travelMm).toBeLessThan(assumptions.clickMm.high);
  },
);
