import { CogwrightError } from '../../src/errors/cogwright-error.ts';
import { areApart } from '../../src/gear-trace/belonging/rides-apart.ts';
import { drivetrainUnknown } from '../../src/gear-trace/guess/unknown-drivetrain.ts';
import { figure } from '../../src/numeric/figure.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { guessDrivetrain } from '../engine.ts';
import { readKept } from './read-kept.ts';
import { soundGuess } from './sound-guess.ts';
import type { GuessAnswer, GuessTask } from './tasks.ts';

/** Guesses a drivetrain from files and says of each what could be read in it and what not. Stores nothing. */
export function guessFromFiles({ files }: GuessTask): GuessAnswer {
  const logs: RideLog[] = [];
  const told = files.map((kept) => {
    const { file } = kept;
    try {
      const log = readKept(kept);
      logs.push(log);
      return {
        name: file,
        understood: understood(log),
        notUnderstood: missing(log),
        remarks: log.warnings.map(({ message }) => message),
      };
    } catch (error) {
      if (!(error instanceof CogwrightError)) throw error;
      return { name: file, understood: [], notUnderstood: [error.message], remarks: [] };
    }
  });
  const withCadence = logs.some(({ cadenceRpm }) => some(cadenceRpm));
  const none = { bike: null, certainty: 0, madeUpCogs: [], ridesApart: false, withCadence, files: told };
  if (logs.length === 0) return { ...none, notes: [] };
  const { bike, certainty, madeUpCogs, notes } = soundGuess(guessDrivetrain(logs));
  // of rides of several bikes nothing is said of the drivetrain guessed from all: nobody rode it
  const apart = notes.filter((note) => areApart([note]));
  const ridesApart = apart.length > 0;
  const said = (ridesApart ? apart : notes).map(({ message }) => message);
  return drivetrainUnknown(notes)
    ? { ...none, notes: said }
    : { bike, certainty, madeUpCogs, ridesApart, notes: said, withCadence, files: told };
}

const some = (values: Float64Array): boolean => values.some((value) => !Number.isNaN(value));

const speedWords: Readonly<Record<RideLog['speedSource'], string>> = {
  wheel: 'speed from a wheel sensor',
  satellite: 'speed from a satellite receiver',
  positions: 'speed worked out from positions',
  distance: 'speed worked out from distance',
  computed: 'speed that was computed, not ridden',
  unknown: 'speed',
};

function understood(log: RideLog): string[] {
  const found = [`${figure(log.timeS.length)} records (${log.format.toUpperCase()})`];
  if (some(log.speedMps)) found.push(speedWords[log.speedSource]);
  if (some(log.cadenceRpm)) found.push('cadence');
  if (some(log.powerW)) found.push('power');
  const gears = log.gearRecords.timeS.length;
  if (gears > 0) found.push(`${figure(gears)} gear records`);
  return found;
}

function missing(log: RideLog): string[] {
  const lacking: string[] = [];
  if (!some(log.speedMps)) lacking.push('No speed: where the chain was cannot be worked out.');
  if (!some(log.cadenceRpm)) lacking.push('No cadence: only the rider’s own reactions can tell of a missed shift.');
  if (log.gearRecords.timeS.length === 0)
    lacking.push('No gear records: what was asked for is not known, so no shift can be called late or missed.');
  return lacking;
}
