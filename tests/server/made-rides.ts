import type { Bike } from '../../src/drivetrain/bike.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { fitBytes } from '../../src/simulate/files/fit-bytes.ts';
import { simulateRides } from '../../src/simulate/simulate-rides.ts';
import { partOfRide } from '../gear-trace/part-of-ride.ts';

/** A bike of the invented guiding firm. */
export const hutBike: Bike = {
  name: 'Dotterel, hut guide bike 4',
  chainrings: [32],
  cassette: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51],
  rolloutMm: 2290,
  actuation: 'cable',
};

/** Another, with gears of its own. */
export const valleyBike: Bike = {
  name: 'Plover, valley bike 1',
  chainrings: [40],
  cassette: [11, 13, 15, 17, 20, 23, 26, 30, 35],
  tyre: '40-622',
  actuation: 'electronic',
};

export interface MadeRide {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** A made ride with its records. */
export interface SimulatedRide extends MadeRide {
  readonly log: RideLog;
}

const made = new Map<string, readonly SimulatedRide[]>();

/** Short rides of a bike with a plain fault, as FIT files. The same numbers give the same bytes. */
export function madeRides(count: number, { seed = 1, minutes = 8, bike = hutBike } = {}): readonly SimulatedRide[] {
  const key = `${count} ${seed} ${minutes} ${bike.name}`;
  let rides = made.get(key);
  if (!rides) {
    rides = simulateRides({
      cause: 'cable-tension-low',
      severity: 'severe',
      seed,
      rides: count,
      durationS: minutes * 60,
      bike,
      terrain: 'hilly',
      speedSource: 'wheel',
    }).map(({ name, bytes, log }) => ({ name: `${name}-${seed}.fit`, bytes: bytes.fit as Uint8Array, log }));
    made.set(key, rides);
  }
  return rides;
}

/** A little ride by hand, in no time: five minutes at one speed, without gears. `variant` makes its content differ. */
export function tinyRide(variant: number): MadeRide {
  const lines = ['time_s,speed_mps,cadence_rpm'];
  for (let second = 0; second < 300; second++)
    lines.push(`${second},${5 + (variant % 1000) / 1000},${80 + (second % 7)}`);
  lines.push(`300,${variant},80`);
  return { name: `tiny-${variant}.csv`, bytes: new TextEncoder().encode(`${lines.join('\n')}\n`) };
}

/** The same ride so many hours later, as a file of its own. */
export function hoursLater({ name, log }: SimulatedRide, hours: number): MadeRide {
  const startMs = log.startMs + ((hours * 3_600_000) % 1e12);
  return { name: name.replace('.fit', `-${hours}.fit`), bytes: fitBytes({ ...log, startMs }) };
}

/** The seconds of a ride from `fromS` to `toS` as a file of their own, as a tool that trims rides writes them. */
export const cutRide = (
  { log }: SimulatedRide,
  name: string,
  fromS: number,
  toS = Number.POSITIVE_INFINITY,
): MadeRide => ({
  name,
  bytes: fitBytes(partOfRide(log, fromS, toS)),
});
