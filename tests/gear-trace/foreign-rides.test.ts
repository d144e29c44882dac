import { expect, it } from 'vitest';
import { moreGears, otherCogs } from '../../src/gear-trace/belonging/another-bike.ts';
import { foreignRides } from '../../src/gear-trace/belonging/foreign-rides.ts';

it('leaves out a ride of other cogs only beside rides of the bike, one of more gears always', () => {
  expect(foreignRides([[], [otherCogs], null])).toEqual([false, true, false]);
  expect(foreignRides([[otherCogs], [otherCogs], null])).toEqual([false, false, false]);
  expect(foreignRides([[otherCogs], [moreGears]])).toEqual([false, true]);
  expect(foreignRides([['teeth-differ']])).toEqual([false]);
});
