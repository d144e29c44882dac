import { MadeRide } from './made-ride.ts';

/** A ride of about 20 min that spends a good minute on each of the nine cogs, with changes of pace in each. */
export function rideAllCogs(seed = 1, noise = 0.004): MadeRide {
  const ride = new MadeRide(undefined, noise, seed);
  for (const cog of [4, 5, 6, 7, 8, 7, 6, 5, 4, 3, 2, 1, 0, 1, 2, 3])
    (cog === ride.cog ? ride : ride.shift(cog)).pedal(25).pedal(12, { cadenceRpm: 95 }).pedal(25, { cadenceRpm: 70 });
  return ride;
}
