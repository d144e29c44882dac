import type { Bike } from '../../src/drivetrain/bike.ts';
import { simulateRides } from '../../src/simulate/simulate-rides.ts';
import { FitEncoder } from '../ride-log/fit-encoder.ts';
import { START } from '../ride-log/fit-ride.ts';

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

const made = new Map<string, readonly MadeRide[]>();

/** Short rides of a bike with a plain fault, as FIT files. The same numbers give the same bytes. */
export function madeRides(count: number, { seed = 1, minutes = 8, bike = hutBike } = {}): readonly MadeRide[] {
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
    }).map(({ name, bytes }) => ({ name: `${name}-${seed}.fit`, bytes: bytes.fit as Uint8Array }));
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

/** The same ride as another file: a further FIT segment without records stands behind it. */
export function variantOf({ name, bytes }: MadeRide, variant: number): MadeRide {
  const tail = new FitEncoder()
    .define(0, 0, [
      [0, 'enum'],
      [4, 'uint32'],
    ])
    .record(0, [4, START + variant]);
  return { name: name.replace('.fit', `-${variant}.fit`), bytes: Buffer.concat([bytes, tail.segment()]) };
}
