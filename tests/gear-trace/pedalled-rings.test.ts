import { expect, it } from 'vitest';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { pedalledRings } from '../../src/gear-trace/levels/pedalled-rings.ts';

const triple: Bike = {
  name: 'Tourer',
  chainrings: [22, 32, 44],
  cassette: [11, 13, 15, 17, 20, 23, 26, 30, 34],
  actuation: 'cable',
};
/** Gears asked for as [ring, cog], pedalled on another ring where one is given. */
const asked = (gears: readonly (readonly [number, number, number?])[], rolloutM = 2.1, rings = triple.chainrings) =>
  gears.map(([ring, cog, on = ring]) => ({
    ring,
    cog,
    weight: 40,
    centre: Math.log((rolloutM * rings[on]) / triple.cassette[cog]),
  }));
const every = [0, 1, 2].flatMap((ring) => [2, 3, 4, 5, 6].map((cog) => [ring, cog] as const));

it('keeps the recorded rings where they fit, whatever the wheel and though the rings are not as written', () => {
  const own = every.map(([ring]) => ring);
  expect(pedalledRings(asked(every), triple)).toEqual(own);
  expect(pedalledRings(asked(every, 2.9), triple)).toEqual(own);
  expect(pedalledRings(asked(every, 2.1, [24, 34, 46]), triple)).toEqual(own);
});

it('finds the ring where a change of ring was not recorded', () => {
  const gears = [
    [0, 4, 0],
    [0, 5, 1],
    [0, 6, 1],
    [1, 2, 1],
    [1, 3, 2],
    [1, 4, 2],
    [1, 5, 1],
  ] as const;
  expect(pedalledRings(asked(gears), triple)).toEqual(gears.map(([, , on]) => on));
});

it('takes a usual wheel where most changes of ring were lost', () => {
  const lost = [2, 3, 4, 5, 6].flatMap((cog) => [[0, cog, 1] as const, [1, cog, cog > 4 ? 1 : 2] as const]);
  expect(pedalledRings(asked(lost), triple)).toEqual(lost.map(([, , on]) => on));
});

it('has nothing to tell of a single ring', () => {
  const single = { ...triple, chainrings: [32] };
  const centre = Math.log((3.5 * 32) / 20);
  expect(pedalledRings([{ ring: 0, cog: 4, weight: 40, centre }], single)).toEqual([0]);
});
