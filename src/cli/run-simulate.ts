import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { parseBike } from '../drivetrain/parse-bike.ts';
import { UsageError } from '../errors/usage-error.ts';
import type { FaultCause } from '../simulate/setting/fault-causes.ts';
import { SimulationOptionError } from '../simulate/setting/option-error.ts';
import { type SimulationFile, simulationFiles } from '../simulate/simulation-files.ts';
import { type ExitCode, exitCode } from './exit-code.ts';
import { makeFolder } from './make-folder.ts';
import { writeNote, writeResult } from './output.ts';
import { readCompanion } from './read-companion.ts';
import { refuseToReplace, ridesLeft } from './simulation-folder.ts';
import { unwritable } from './write-error.ts';

/** Options of `simulate` as commander hands them over. */
export interface SimulateOptions {
  readonly fault: string;
  readonly seed: number;
  readonly out: string;
  readonly rides?: number;
  readonly minutes?: number;
  readonly severity?: 'mild' | 'severe';
  readonly bike?: string;
}

/**
 * Carries out `simulate`: writes the rides with their truth, the bike and the adjustments; prints the names.
 *
 * @throws UsageError where the options cannot be simulated, the folder cannot be written, or a file there would be lost
 */
export async function runSimulate(options: SimulateOptions): Promise<ExitCode> {
  const files = simulated(options);
  refuseToReplace(options.out, files);
  for (const file of files) {
    const path = join(options.out, file.path);
    try {
      makeFolder(dirname(path));
      writeFileSync(path, file.bytes);
    } catch (error) {
      throw unwritable(`--out ${options.out}`, path, error);
    }
    await writeResult(`${path}\n`);
  }
  writeNote(`cogwright: wrote ${files.length} files to ${options.out}`);
  const left = ridesLeft(options.out, files);
  if (left.length > 0)
    writeNote(
      `cogwright: ${options.out} still holds ${left.join(', ')} of another simulation, of another bike perhaps.`,
    );
  return exitCode.done;
}

function simulated(options: SimulateOptions): SimulationFile[] {
  try {
    return simulationFiles({
      cause: options.fault as FaultCause,
      seed: options.seed,
      rides: options.rides,
      durationS: options.minutes === undefined ? undefined : options.minutes * 60,
      severity: options.severity,
      bike: options.bike === undefined ? undefined : parseBike(options.bike, readCompanion(options.bike, 'bike')),
    });
  } catch (error) {
    throw error instanceof SimulationOptionError ? asTyped(error, options) : error;
  }
}

/** The error in the words and units of the command line. */
function asTyped({ option, found, allowed }: SimulationOptionError, { minutes }: SimulateOptions): UsageError {
  if (option === 'durationS') return new UsageError(`--minutes ${minutes}: allowed: 1 to 1440 minutes.`);
  return new UsageError(`--${option === 'cause' ? 'fault' : option} ${found}: allowed: ${allowed}.`);
}
