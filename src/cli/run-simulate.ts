import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { parseBike } from '../drivetrain/parse-bike.ts';
import type { FaultCause } from '../simulate/setting/fault-causes.ts';
import { simulationFiles } from '../simulate/simulation-files.ts';
import { type ExitCode, exitCode } from './exit-code.ts';
import { writeNote, writeResult } from './output.ts';
import { readTextFile } from './read-text-file.ts';
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
 * @throws SimulationOptionError where the options cannot be simulated, UsageError where the folder cannot be written
 */
export async function runSimulate(options: SimulateOptions): Promise<ExitCode> {
  const files = simulationFiles({
    cause: options.fault as FaultCause,
    seed: options.seed,
    rides: options.rides,
    durationS: options.minutes === undefined ? undefined : options.minutes * 60,
    severity: options.severity,
    bike: options.bike === undefined ? undefined : parseBike(options.bike, readTextFile(options.bike)),
  });
  for (const file of files) {
    const path = join(options.out, file.path);
    try {
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, file.bytes);
    } catch (error) {
      throw unwritable(`--out ${options.out}`, path, error);
    }
    await writeResult(`${path}\n`);
  }
  writeNote(`cogwright: wrote ${files.length} files to ${options.out}`);
  return exitCode.done;
}
