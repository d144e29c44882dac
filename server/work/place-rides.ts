import type { Bike } from '../../src/drivetrain/bike.ts';
import type { Warning } from '../../src/errors/warning.ts';
import { alikeWithin, fitsBike } from '../../src/gear-trace/belonging/fits-bike.ts';
import { rungsOf } from '../../src/gear-trace/belonging/share-on-gears.ts';
import { type RecordedTeeth, recordedTeeth } from '../../src/gear-trace/commands/recorded-gears.ts';
import { drivetrainUnknown } from '../../src/gear-trace/guess/unknown-drivetrain.ts';
import { ringsPedalled, ringsUnclear } from '../../src/gear-trace/guess/unrecorded-rings.ts';
import { andOthers } from '../../src/numeric/and-others.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { guessDrivetrain } from '../engine.ts';
import { readKept, readKeptIfThere } from './read-kept.ts';
import { rideFault } from './ride-fault.ts';
import { soundGuess } from './sound-guess.ts';
import type { CandidateBike, GuessedBike, PlaceAnswer, PlaceTask } from './tasks.ts';

/** Code of the note on a bike whose rides may as well be of others. */
export const bikeUnclear = 'bike-unclear';

/**
 * Finds the bike for rides that came without one: the bike they fit best, else a new one with the drivetrain that the
 * rides show. Rides that fit several bikes as well go to none of those, but to a new one that says so, where all such
 * rides gather until their rider sorts them out: on the wrong bike they would make its verdict false. A guessed bike is
 * guessed anew when a ride that joins it names sizes not seen before. Rides that show nothing go to the only bike there
 * is, else all of them to one, for the rider to sort out.
 */
export function placeRides({ rides, bikes }: PlaceTask): PlaceAnswer {
  try {
    const logs = rides.map(readKept);
    const { likeliest, gathering } = fitting(logs, bikes);
    const home = likeliest.length === 1 ? likeliest[0] : gathering;
    if (home) return { fault: null, bikeId: home.id, guess: betterGuess(home, logs, likeliest) };
    const guess = soundGuess(guessDrivetrain(logs));
    if (likeliest.length > 1) return { fault: null, bikeId: null, guess: asOneOf(guess, likeliest) };
    if (guess.certainty === 0) {
      const only = bikes.length === 1 ? bikes[0] : bikes.find((bike) => isUnknown(bike, guess.bike));
      if (only) return { fault: null, bikeId: only.id, guess: null };
    }
    return { fault: null, bikeId: null, guess };
  } catch (error) {
    return { fault: rideFault(error) };
  }
}

/** The bikes that the rides fit best, as far as they can be told apart, and the one that gathers rides of alike bikes, where they fit it. */
function fitting(logs: readonly RideLog[], bikes: readonly CandidateBike[]) {
  const ladders = logs.map((log) => (bikes.length > 0 ? rungsOf(log) : []));
  const fits = bikes
    .map((bike) => ({ bike, fit: Math.min(...logs.map((log, i) => fitsBike(log, ladders[i], bike))) }))
    .filter(({ fit }) => fit > 0);
  const own = fits.filter(({ bike }) => !bike.unclear);
  const least = Math.max(...own.map(({ fit }) => fit)) - Math.max(...logs.map(alikeWithin));
  return {
    likeliest: own.filter(({ fit }) => fit >= least).map(({ bike }) => bike),
    gathering: fits.find(({ bike }) => bike.unclear)?.bike,
  };
}

/** So many alike bikes are named. */
const MOST_NAMED = 4;

/** The guess for rides of any of several alike bikes, saying so; with what those have in common where the rides alone show no drivetrain. */
function asOneOf(guess: GuessedBike, alike: readonly CandidateBike[]): GuessedBike {
  const names = alike.map(({ bike: { name } }) => name);
  const note: Warning = {
    code: bikeUnclear,
    message: `These rides may be of any of these bikes, whose gears fit them as well: ${andOthers(MOST_NAMED, names)}. They were put together here; move each to its bike.`,
  };
  if (!drivetrainUnknown(guess.notes)) return { ...guess, notes: [note, ...guess.notes] };
  const { chainrings, cassette, actuation } = alike[0].bike;
  return { bike: { name: guess.bike.name, chainrings, cassette, actuation }, notes: [note], certainty: null };
}

/** True for the bike of rides that show nothing: one that somebody described may have the same teeth. */
const isUnknown = ({ bike, guessed, recorded }: CandidateBike, unknown: Bike): boolean =>
  guessed && recorded.rear.length === 0 && teethOf(bike) === teethOf(unknown);

const teethOf = ({ chainrings, cassette }: Bike): string => JSON.stringify([chainrings, cassette]);

/** Null where the new rides show no cog or ring that was not seen before: tracing rides for a guess takes its time. */
function betterGuess(
  home: CandidateBike,
  logs: readonly RideLog[],
  likeliest: readonly CandidateBike[],
): GuessedBike | null {
  if (!home.guessed) return null;
  const named = logs.map(({ gearRecords }) => recordedTeeth(gearRecords));
  const shows = (end: 'rear' | 'front'): boolean =>
    named.some((teeth) => teeth[end].some((size) => !home.recorded[end].includes(size)));
  const names = shows('rear') || shows('front');
  if (!names && !mayHaveOtherRings(home, named)) return null;
  const all = [...home.rides.map(readKeptIfThere).filter((log) => log !== null), ...logs];
  if (!names && !home.ringsUnclear && ringsPedalled(all, home.bike) <= home.bike.chainrings.length) return null;
  const guess = soundGuess(guessDrivetrain(all));
  const same = teethOf(guess.bike) === teethOf(home.bike) && home.ringsUnclear === ringsUnclear(guess.notes);
  if (guess.certainty === 0 || same) return null;
  return home.unclear && likeliest.length > 0 ? asOneOf(guess, likeliest) : guess;
}

/** True where cogs are recorded and no ring: a further ride may have been pedalled on a ring that those before it were not. */
const mayHaveOtherRings = ({ recorded }: CandidateBike, named: readonly RecordedTeeth[]): boolean =>
  recorded.front.length === 0 && named.some(({ rear }) => rear.length > 0);
