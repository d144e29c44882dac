import { expect, it } from 'vitest';
import { unseenCogs } from '../../src/cogs/unseen-cogs.ts';
import { madeShift } from './made-shift.ts';

it('counts a cog as seen where a ride measured it, or a shift began there or was to end there', () => {
  const measured = (...cassette: (number | null)[]) => ({ cassette });
  const rides = [
    { measured: measured(11, null, null, null, null), shifts: [] },
    { measured: measured(null, null, null, null, null), shifts: [madeShift(5, 2, 3, 'unjudged')] },
  ];
  expect(unseenCogs(rides, 5)).toEqual([1, 4]);
  expect(unseenCogs([], 3)).toEqual([0, 1, 2]);
});
