import type { Bike } from '../../src/drivetrain/bike.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { guessDrivetrain } from '../engine.ts';
import { fitsBike, rungsOf } from './fits-bike.ts';
import { readKept, readKeptIfThere } from './read-kept.ts';
import { rideFault } from './ride-fault.ts';
import { soundGuess } from './sound-guess.ts';
import type { CandidateBike, GuessedBike, PlaceAnswer, PlaceTask } from './tasks.ts';

/**
 * Finds the bike for rides that came without one: the bike they fit best, else a new one with the drivetrain that the
 * rides show. A guessed bike is guessed anew when a ride that joins it names sizes not seen before. Rides that show
 * nothing go to the only bike there is, else all of them to one, for the rider to sort out.
 */
export function placeRides({ rides, bikes }: PlaceTask): PlaceAnswer {
  try {
    const logs = rides.map(readKept);
    const ladders = logs.map((log) => (bikes.length > 0 ? rungsOf(log) : []));
    const [best] = bikes
      .map((bike) => ({ bike, fit: Math.min(...logs.map((log, i) => fitsBike(log, ladders[i], bike))) }))
      .filter(({ fit }) => fit > 0)
      .sort((a, b) => b.fit - a.fit);
    if (best) return { fault: null, bikeId: best.bike.id, guess: betterGuess(best.bike, logs) };
    const guess = soundGuess(guessDrivetrain(logs));
    if (guess.certainty === 0 && bikes.length > 0) {
      const same = bikes.find(({ bike }) => teethOf(bike) === teethOf(guess.bike));
      const home = same ?? (bikes.length === 1 ? bikes[0] : undefined);
      if (home) return { fault: null, bikeId: home.id, guess: null };
    }
    return { fault: null, bikeId: null, guess };
  } catch (error) {
    return { fault: rideFault(error) };
  }
}

const teethOf = ({ chainrings, cassette }: Bike): string => JSON.stringify([chainrings, cassette]);

/** Null where the new rides show no cog or ring that was not seen before: tracing rides for a guess takes its time. */
function betterGuess({ bike, guessed, recorded, rides }: CandidateBike, logs: readonly RideLog[]): GuessedBike | null {
  const shows = (end: 'rearTeeth' | 'frontTeeth', known: readonly number[]): boolean =>
    logs.some(({ gearRecords }) => gearRecords[end].some((teeth) => teeth > 0 && !known.includes(teeth)));
  if (!guessed || !(shows('rearTeeth', recorded.rear) || shows('frontTeeth', recorded.front))) return null;
  const guess = soundGuess(guessDrivetrain([...rides.map(readKeptIfThere).filter((log) => log !== null), ...logs]));
  return guess.certainty > 0 && teethOf(guess.bike) !== teethOf(bike) ? guess : null;
}
