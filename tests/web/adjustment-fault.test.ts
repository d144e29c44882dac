import { expect, it } from 'vitest';
import { adjustmentFault } from '../../web/bike/adjustment-fault.ts';

it('says in plain words what the log form refuses', () => {
  const filledIn = { parameter: 'index-offset', amount: null, unit: 'steps' };
  expect(adjustmentFault('amount', 'x', filledIn)).toBe('The index offset needs an amount in steps: put in how many.');
  expect(adjustmentFault('amount', 'x', { ...filledIn, amount: 500 })).toBe('Put in an amount of up to 100 steps.');
  expect(adjustmentFault('at', 'x', filledIn)).toBe('Put in the day and the time when it was done.');
  expect(adjustmentFault('note', 'x', filledIn)).toBe('x');
});
