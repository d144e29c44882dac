import { readFileSync } from 'node:fs';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { guessDrivetrain } from '../engine.ts';
import { fitsBike, rungsOf } from './fits-bike.ts';
import { rideFault } from './ride-fault.ts';
import type { PlaceAnswer, PlaceTask } from './tasks.ts';

/**
 * Finds the bike for rides that came without one: the bike they fit best, else a new one with the drivetrain that the
 * rides show. A ride that shows nothing goes to the only bike there is, if there is just one.
 */
export function placeRides({ rides, bikes }: PlaceTask): PlaceAnswer {
  try {
    const logs = rides.map(({ path, file }) => readRideLog(file, readFileSync(path)));
    const ladders = logs.map((log) => (bikes.length > 0 ? rungsOf(log) : []));
    const fits = bikes
      .map((bike) => ({ id: bike.id, fit: Math.min(...logs.map((log, i) => fitsBike(log, ladders[i], bike))) }))
      .filter(({ fit }) => fit > 0)
      .sort((a, b) => b.fit - a.fit);
    if (fits.length > 0) return { fault: null, bikeId: fits[0].id };
    const guess = guessDrivetrain(logs);
    if (guess.certainty === 0 && bikes.length > 0) {
      // Nothing shows whose rides these are: all such rides gather on one bike, for the rider to sort out.
      const same = bikes.find(({ bike }) => JSON.stringify(bike) === JSON.stringify(guess.bike));
      const only = bikes.length === 1 ? bikes[0] : undefined;
      if (same ?? only) return { fault: null, bikeId: (same ?? only)!.id };
    }
    return { fault: null, bikeId: null, bike: guess.bike };
  } catch (error) {
    return { fault: rideFault(error) };
  }
}
