import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { guessDrivetrain } from '../../src/gear-trace/guess/guess-drivetrain.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { withoutRecords } from '../accuracy/without-records.ts';
import { MadeRide, madeBike } from './made-ride.ts';

const otherBike: Bike = { ...madeBike, chainrings: [48], cassette: [11, 12, 13, 14, 16, 18, 20, 22, 25] };

const EVERY_COG = [4, 5, 6, 7, 8, 7, 6, 5, 4, 3, 2, 1, 0, 1, 2, 3];

function ridden(file: string, bike: Bike, seed: number, cogs: readonly number[] = EVERY_COG): RideLog {
  const ride = new MadeRide(bike, 0.004, seed);
  for (const cog of cogs)
    (cog === ride.cog ? ride : ride.shift(cog)).pedal(25).pedal(12, { cadenceRpm: 95 }).pedal(25, { cadenceRpm: 70 });
  return { ...ride.log(), file };
}

const own = ridden('own.fit', madeBike, 1);
const again = ridden('again.fit', madeBike, 2);
const other = ridden('other.fit', otherBike, 3);

/** Rides that kept to the smaller and to the larger cogs of one cassette, with and without positions. */
const [smaller, larger] = [
  ridden('smaller.fit', madeBike, 4, [3, 2, 1, 0, 1, 2, 3, 4, 5, 4]),
  ridden('larger.fit', madeBike, 5, [5, 6, 7, 8, 7, 6, 5, 4]),
];
const withoutPositions = (log: RideLog): RideLog => {
  const none = new Uint8Array(log.gearRecords.timeS.length);
  return { ...log, gearRecords: { ...log.gearRecords, rearPosition: none, frontPosition: none } };
};

const apart = (...logs: RideLog[]): string | null =>
  guessDrivetrain(logs).notes.find(({ code }) => code === 'rides-apart')?.message ?? null;

describe('rides of two bikes in one guess', () => {
  it.each([
    ['both with gear records', own, other],
    ['both with teeth alone', withoutPositions(own), withoutPositions(other)],
    ['one without', own, withoutRecords(other)],
    ['both without', withoutRecords(own), withoutRecords(other)],
  ])('are named, and the guess is hardly certain: %s', (_what, a, b) => {
    expect(apart(a, b)).toMatch(/the gears of (own|other)\.fit are not those of (own|other)\.fit/);
    expect(guessDrivetrain([a, b]).certainty).toBeLessThanOrEqual(0.2);
  });

  it.each([
    ['both with gear records', own, again],
    ['one without', own, withoutRecords(again)],
    ['both without', withoutRecords(own), withoutRecords(again)],
    ['that kept to parts of its cassette', smaller, larger],
    ['that kept to parts of it, without positions', withoutPositions(smaller), withoutPositions(larger)],
    [
      'with a wheel that is 1 % larger',
      own,
      { ...withoutRecords(again), speedMps: again.speedMps.map((v) => 1.01 * v) },
    ],
    ['with a speed that was not ridden', own, { ...withoutRecords(other), speedSource: 'computed' as const }],
  ])('are not seen in rides of one bike: %s', (_what, a, b) => {
    expect(apart(a, b)).toBeNull();
    expect(guessDrivetrain([a, b]).certainty).toBeGreaterThan(0.2);
  });
});
