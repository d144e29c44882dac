import { describe, expect, it } from 'vitest';
import { guessDrivetrain } from '../../src/gear-trace/guess/guess-drivetrain.ts';
import { guessFromRecords } from '../../src/gear-trace/guess/guess-from-records.ts';
import { ringsPedalled, ringsUnclear, unrecordedRings } from '../../src/gear-trace/guess/unrecorded-rings.ts';
import { withoutRecords } from '../accuracy/without-records.ts';
import { MadeRide, madeDoubleBike } from './made-ride.ts';
import { rideAllCogs } from './ride-all-cogs.ts';
import { withoutFront } from './without-front.ts';

/** A ride that spends 40 s on each of these cogs on the large ring, then on the small one; its records name no ring. */
function rideOn(largeRing: readonly number[], smallRing: readonly number[], seconds = 40) {
  const ride = new MadeRide(madeDoubleBike);
  for (const [ring, cogs] of [
    [1, largeRing],
    [0, smallRing],
  ] as const)
    for (const cog of cogs) ride.command(cog, ring).move(cog, ring).pedal(seconds);
  return withoutFront(ride.log());
}
const middle = [2, 3, 4, 5, 6];
const bothRings = rideOn(middle, middle);
const large = rideOn(middle, []);
const small = rideOn([], middle);
const oneRing = withoutFront(rideAllCogs().log());
const ratio = ([a, b]: readonly number[]): number => b / a;
const recordedBike = (...logs: Parameters<typeof guessFromRecords>[0]) => guessFromRecords(logs) ?? madeDoubleBike;

describe('a bike whose records name no ring', () => {
  it('gets the rings on which its cogs were pedalled', () => {
    const { bike, certainty, notes } = guessDrivetrain([bothRings]);
    expect(ratio(bike.chainrings)).toBeCloseTo(50 / 34, 1);
    expect(((bike.rolloutMm ?? 0) * bike.chainrings[1]) / (2100 * 50)).toBeCloseTo(1, 2);
    expect(certainty).toBeGreaterThan(0.3);
    expect(notes.map(({ code }) => code)).toEqual(['bike-guessed', 'actuation-guessed']);
    expect(notes[0].message).toContain(`the ratios show 2 rings, taken for ${bike.chainrings.join('/')};`);
  });

  it('keeps its one ring, whose size is told by the rollout alone', () => {
    const recorded = recordedBike(oneRing);
    expect(unrecordedRings([oneRing], recorded)).toMatchObject({ bike: recorded, unclear: false });
    const { bike, notes } = guessDrivetrain([oneRing]);
    expect(bike.chainrings).toHaveLength(1);
    expect(bike.rolloutMm).toBeUndefined();
    expect(ringsUnclear(notes)).toBe(false);
  });

  it('is told by rides together that are on one ring each', () => {
    expect(guessDrivetrain([large]).bike.chainrings).toHaveLength(1);
    expect(guessDrivetrain([large, small]).bike.chainrings).toHaveLength(2);
  });

  it.each([
    ['a second ring shows on one cog only', rideOn(middle, [4], 60)],
    ['hardly anything was pedalled in settled gears', rideOn(middle, [], 26)],
    ['speed in another unit hides their size', { ...bothRings, speedMps: bothRings.speedMps.map((v) => 3.6 * v) }],
  ])('is called unclear, and hardly certain, where %s', (_why, log) => {
    const { certainty, notes } = guessDrivetrain([log]);
    expect(ringsUnclear(notes)).toBe(true);
    expect(certainty).toBeLessThan(0.2);
  });

  it('is not in question where no ratio shows', () => {
    const silent = { ...bothRings, cadenceRpm: bothRings.cadenceRpm.map(() => Number.NaN) };
    expect(ringsUnclear(guessDrivetrain([silent]).notes)).toBe(false);
  });
});

describe('ringsPedalled', () => {
  it('counts the rings that rides show', () => {
    const bike = recordedBike(bothRings);
    expect(ringsPedalled([bothRings], bike)).toBe(2);
    expect(ringsPedalled([large], bike)).toBe(1);
    expect(ringsPedalled([oneRing], recordedBike(oneRing))).toBe(1);
  });

  it('is 0 where records name rings, or no cogs, or nothing is clear', () => {
    const bike = recordedBike(bothRings);
    const named = rideAllCogs().log();
    expect(ringsPedalled([bothRings, named], bike)).toBe(0);
    expect(ringsPedalled([withoutRecords(bothRings)], bike)).toBe(0);
    expect(ringsPedalled([rideOn(middle, [4], 60)], bike)).toBe(0);
  });
});
