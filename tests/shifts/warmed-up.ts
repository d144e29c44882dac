import { MadeRide, madeBike } from '../gear-trace/made-ride.ts';

/** A ride that has lasted long enough for its scale, lag and noise to be known. */
export const warmedUp = (bike = madeBike): MadeRide => new MadeRide(bike).pedal(30).wander(20).pedal(15);

/** Shifts one by one until the derailleur and the chain stand at a cog. */
export function at(cog: number, ride = warmedUp()): MadeRide {
  while (ride.cog !== cog) ride.shift(ride.cog + Math.sign(cog - ride.cog)).pedal(8);
  return ride;
}
