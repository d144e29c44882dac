import fc from 'fast-check';
import { expect, it } from 'vitest';
import { endWithin, firstWithin } from '../../src/shifts/records-about.ts';

it('finds the records that lie no further from one than so many seconds', () => {
  const rides = fc.record({
    gaps: fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 40 }),
    at: fc.nat(),
    withinS: fc.integer({ min: 0, max: 20 }),
  });
  fc.assert(
    fc.property(rides, ({ gaps, at, withinS }) => {
      let t = 0;
      const timeS = gaps.map((gap) => (t += gap));
      const i = at % timeS.length;
      const near = timeS.flatMap((other, k) => (Math.abs(other - timeS[i]) <= withinS ? [k] : []));
      expect([firstWithin(timeS, i, withinS), endWithin(timeS, i, withinS)]).toEqual([
        near[0],
        near[near.length - 1] + 1,
      ]);
    }),
  );
});
