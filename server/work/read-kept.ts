import { readFileSync } from 'node:fs';
import { CogwrightError } from '../../src/errors/cogwright-error.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { unpackGzip } from '../../src/ride-log/unpack-gzip.ts';
import type { KeptRide } from './tasks.ts';

/**
 * Decodes a ride file of the raw store.
 *
 * @throws FileError where it is no ride; an error of the file system where it cannot be read
 */
export const readKept = ({ path, file }: KeptRide): RideLog => readRideLog(file, unpackGzip(file, readFileSync(path)));

/** The same; null for a ride that was removed meanwhile or is damaged, where the work at hand can do without it: its own analysis says so. */
export function readKeptIfThere(kept: KeptRide): RideLog | null {
  try {
    return readKept(kept);
  } catch (error) {
    if (error instanceof CogwrightError || (error as { code?: string }).code === 'ENOENT') return null;
    throw error;
  }
}
