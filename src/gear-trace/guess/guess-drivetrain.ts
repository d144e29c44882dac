import { type Bike, possibleBike } from '../../drivetrain/bike.ts';
import { bikeRolloutMm } from '../../drivetrain/bike-rollout.ts';
import type { Warning } from '../../errors/warning.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { apartNote, type GuessedFrom, ridesApart } from '../belonging/rides-apart.ts';
import { type RecordedGears, recordedGears } from '../commands/recorded-gears.ts';
import { ladderPeaks } from '../ladder/ladder-peaks.ts';
import { sharpestHistogram } from '../ladder/sharpest-histogram.ts';
import { pedallingSamples } from '../samples/pedalling-samples.ts';
import { guessFromLadder } from './guess-from-ladder.ts';
import { guessFromRecords, namesCogs, whyNoBike } from './guess-from-records.ts';
import { ladderWords } from './ladder-words.ts';
import { madeUpCogs, madeUpWords } from './made-up-cogs.ts';
import { inOwnOrder, longestRides, type Measured, measuredBy } from './measured-by.ts';
import { neverReachedWords, shareShown, teethShownWords } from './teeth-shown.ts';
import { unknownBike, unknownNote } from './unknown-drivetrain.ts';
import { withUnnamedCogs } from './unnamed-cogs.ts';
import { assumedRings, ringsUnclearNote, unrecordedRings } from './unrecorded-rings.ts';

/** A drivetrain worked out from rides, with what is said of it. `certainty` is 0 to 1: the share of its teeth that the rides themselves show, held below 1 for cogs that may not have been used. */
export interface DrivetrainGuess {
  readonly bike: Bike;
  readonly certainty: number;
  /** Cogs of it, in teeth, that nothing shows. */
  readonly madeUpCogs: readonly number[];
  readonly notes: readonly Warning[];
}

/** Guesses the bike from gear records where a ride has them, else from the ladder of speed-to-cadence ratios. */
export function guessDrivetrain(logs: readonly RideLog[]): DrivetrainGuess {
  const recorded = logs.filter((log) => log.gearRecords.timeS.length > 1);
  const fromRecords = guessFromRecords(recorded);
  if (fromRecords)
    return ringRecorded(recorded)
      ? refine(withUnnamedCogs(fromRecords, recorded), recorded, logs)
      : refineWithRings(fromRecords, recorded, logs);
  const guess = fromLadder(logs) ?? unknown(logs);
  return recorded.length === 0 ? guess : { ...guess, notes: [...guess.notes, recordsUnused(recorded)] };
}

function unknown(logs: readonly RideLog[]): DrivetrainGuess {
  const makesNone = namesCogs(logs) ? 'Gear records that make no bike' : 'Gear records of one cog at most';
  const records = logs.every(({ gearRecords }) => gearRecords.timeS.length === 0) ? 'No gear records' : makesNone;
  return {
    bike: unknownBike,
    certainty: 0,
    madeUpCogs: unknownBike.cassette,
    notes: [unknownNote(`${records} and no clear ladder of ratios`)],
  };
}

/** Says that gear records are there and that the guess is made without them. */
const recordsUnused = (recorded: readonly RideLog[]): Warning => ({
  code: 'gear-records-unused',
  message: `The gear records make no bike: ${whyNoBike(recorded)}. The drivetrain was looked for without them. Describe the bike, cog by cog, to have them read against it.`,
});

/** Code of the note on how the actuation was guessed. */
export const actuationGuessed = 'actuation-guessed';
const electronicNote: Warning = {
  code: actuationGuessed,
  message: 'The shifting is taken for electronic, since it wrote gear records.',
};

/** No ride shows a cog that was not used, so no guess is sure; positions show those between the cogs used. */
const MOST_CERTAIN = { byPosition: 0.95, byTeeth: 0.8 };
/** What to do about cogs that nothing shows, with a space before: nothing where they were filled in. */
const unusedWords = (madeUp: readonly number[]): string =>
  madeUp.length > 0 ? '' : ' A cog that no ride used cannot show: add it if the bike has one.';
const addedWords = (madeUp: readonly number[], there: readonly number[]): string =>
  madeUpWords(madeUp, there) + unusedWords(madeUp);

/** Certainty of teeth that are recorded and that no ride shows, and of a ladder that one drivetrain alone explains: its scale stays open (assumptions of ours). */
const CERTAINTY_BY_RECORDS_ALONE = 0.3;
const CERTAINTY_BY_LADDER = 0.6;

/** What is left of it where the rides do not look like those of one bike. */
const CERTAINTY_OF_RIDES_APART = 0.2;

/** What is left of it where it is not clear how many rings there are. */
const CERTAINTY_OF_UNCLEAR_RINGS = 0.15;

/** The guess where no record names a ring: with the rings that the ratios show. */
function refineWithRings(recorded: Bike, logs: readonly RideLog[], all: readonly RideLog[]): DrivetrainGuess {
  const { bike, likelihood, unclear } = unrecordedRings(longestRides(logs), recorded);
  const guess = refine(unclear ? bike : withUnnamedCogs(bike, logs), logs, all);
  if (unclear)
    return {
      ...guess,
      certainty: Math.min(guess.certainty, CERTAINTY_OF_UNCLEAR_RINGS),
      notes: [ringsUnclearNote, ...guess.notes],
    };
  return bike.chainrings.length === 1 ? guess : { ...guess, certainty: guess.certainty * likelihood };
}

/** Sets the teeth of a bike against what the rides show; its rings are those recorded, or assumed where none are. */
function refine(asRead: Bike, logs: readonly RideLog[], all: readonly RideLog[]): DrivetrainGuess {
  const measured = measuredBy(logs, asRead);
  const gears = logs.map(({ gearRecords }) => recordedGears(gearRecords));
  const named = new Set(gears.flatMap(({ rear }) => rear.sizes));
  if (!measured) {
    const madeUp = madeUpCogs(asRead.cassette, (size) => named.has(size));
    return unlessApart(
      all,
      { bike: asRead, rolloutMm: Number.NaN, ride: longestRides(logs)[0] },
      {
        bike: asRead,
        certainty: CERTAINTY_BY_RECORDS_ALONE,
        madeUpCogs: madeUp,
        notes: readNotes(
          `The drivetrain is read off the gear records as they stand; no ride shows by its speed and cadence whether its teeth are right.${addedWords(madeUp, cogsByPosition(gears, asRead.cassette))}`,
          asRead,
          logs,
          false,
        ),
      },
    );
  }
  const { teeth, rolloutMm, ride } = measured;
  // several rings that no record names were worked out from all rides: one ride knows them no better
  const ringsKnown = ringRecorded(logs) || asRead.chainrings.length === 1;
  const bike = withTeeth(asRead, ringsKnown ? teeth : { ...teeth, chainrings: [] });
  const madeUp = madeUpCogs(bike.cassette, (_, cog) => teeth.cassette[cog] !== null || named.has(asRead.cassette[cog]));
  const shown = { cassette: teeth.cassette, chainrings: ringRecorded(logs) ? teeth.chainrings : [] };
  const neverReached = neverReachedWords(
    bike.cassette.filter((_, cog) => teeth.cassette[cog] === null && named.has(asRead.cassette[cog])),
  );
  const positions = gears.some(({ rear }) => rear.positions.length > 0);
  return unlessApart(
    all,
    { bike, rolloutMm, ride },
    {
      bike,
      madeUpCogs: madeUp,
      certainty: shareShown(shown) * (positions ? MOST_CERTAIN.byPosition : MOST_CERTAIN.byTeeth),
      notes: readNotes(
        `The drivetrain is read off the gear records and measured from speed and cadence: ${teethShownWords(bike, shown)}${neverReached}${addedWords(madeUp, cogsByPosition(gears, bike.cassette))}${differing(asRead, bike, ringRecorded(logs))}`,
        bike,
        logs,
        true,
      ),
    },
  );
}

/** The notes on a bike that was read off the records, and measured or not; where none names a ring, with a word on the bike's. */
const readNotes = (message: string, bike: Bike, logs: readonly RideLog[], measured: boolean): Warning[] => [
  { code: 'bike-guessed', message: message + (ringRecorded(logs) ? '' : assumedRings(bike, measured)) },
  electronicNote,
];

/** The guess, hardly certain and with a word on it where some of the rides do not look like those of its bike. */
function unlessApart(logs: readonly RideLog[], from: GuessedFrom, guess: DrivetrainGuess): DrivetrainGuess {
  const apart = ridesApart(logs, from);
  if (apart.length === 0) return guess;
  return {
    ...guess,
    certainty: Math.min(guess.certainty, CERTAINTY_OF_RIDES_APART),
    notes: [apartNote(apart, from), ...guess.notes],
  };
}

const ringRecorded = (logs: readonly RideLog[]): boolean =>
  logs.some(({ gearRecords }) => recordedGears(gearRecords).front.sizes.length > 0);

/** The bike with the teeth that a ride shows, as far as they make a bike. */
function withTeeth(recorded: Bike, measured: Measured['teeth']): Bike {
  const merge = (written: readonly number[], shown: readonly (number | null)[]): number[] => {
    const merged = written.map((teeth, i) => shown[i] ?? teeth);
    return merged.every((teeth, i) => i === 0 || teeth > merged[i - 1]) ? merged : [...written];
  };
  const merged = {
    ...recorded,
    chainrings: merge(recorded.chainrings, measured.chainrings),
    cassette: merge(recorded.cassette, measured.cassette),
  };
  return possibleBike(merged) ?? recorded;
}

/** The cogs that recorded positions prove to be there, in teeth as written: all that are counted up to the highest position named. */
function cogsByPosition(gears: readonly RecordedGears[], cassette: readonly number[]): number[] {
  return cassette.filter((_, cog) =>
    gears.some(({ rear: { positions, countsFrom } }) => {
      const counted = countsFrom === 'smallest' ? cog + 1 : cassette.length - cog;
      return counted <= (positions.at(-1) ?? 0);
    }),
  );
}

/** In words, which recorded teeth the ratios contradict; empty where none. Rings that nobody recorded are none. */
function differing(asRead: Bike, bike: Bike, withRings: boolean): string {
  const words = ({ chainrings, cassette }: Bike): string =>
    `${withRings ? `rings ${chainrings.join('/')}, ` : ''}cogs ${cassette.join('-')}`;
  const [recorded, shown] = [asRead, bike].map(words);
  return recorded === shown ? '' : ` Recorded teeth differed: recorded ${recorded}; by the ratios ${shown}.`;
}

function fromLadder(logs: readonly RideLog[]): DrivetrainGuess | null {
  const [best] = logs
    .flatMap((log) => {
      const sharpest = sharpestHistogram(log, pedallingSamples(log));
      return sharpest.whyNone === null ? [{ ride: log, histogram: sharpest.histogram }] : [];
    })
    .sort((a, b) => b.histogram.totalS - a.histogram.totalS || inOwnOrder(a.ride, b.ride));
  if (!best) return null;
  const guess = guessFromLadder(ladderPeaks(best.histogram));
  if (!guess) return null;
  const madeUp = madeUpCogs(guess.bike.cassette, (size) => guess.seenCogs.includes(size));
  return unlessApart(
    logs,
    { bike: guess.bike, rolloutMm: bikeRolloutMm(guess.bike), ride: best.ride },
    {
      bike: guess.bike,
      madeUpCogs: madeUp,
      certainty: (CERTAINTY_BY_LADDER * guess.likelihood * guess.seenCogs.length) / guess.bike.cassette.length,
      notes: [
        {
          code: 'bike-guessed',
          message: `${ladderWords(guess, madeUp)}${unusedWords(madeUp)}`,
        },
      ],
    },
  );
}
