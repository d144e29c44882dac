import { expect, it } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import { cableBike, patternRide } from './pattern-ride.ts';

const likeliest = (isLateOn: (cog: number) => boolean): string => {
  const pattern = (cog: number) => (isLateOn(cog) ? { late: 0.06 } : {});
  const rides = [0, 1].map((day) => patternRide({ day, shifts: 17, pattern }));
  return diagnose({ bike: cableBike, rides, adjustments: [] }).causes[0].cause;
};

// one shift in 17 onto every cog from both sides: some eighty times what real rides of bikes in order show (1 of 1,510 by hand)
it('a little trouble everywhere is not that of a bike in order', () => {
  expect(likeliest(() => true)).not.toBe('no-fault');
});

it('a little on two cogs is', () => {
  expect(likeliest((cog) => cog === 4 || cog === 7)).toBe('no-fault');
});
