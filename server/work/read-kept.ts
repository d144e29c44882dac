import { readFileSync } from 'node:fs';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import type { KeptRide } from './tasks.ts';

/**
 * Decodes a ride file of the raw store.
 *
 * @throws FileError where it is no ride; an error of the file system where it cannot be read
 */
export const readKept = ({ path, file }: KeptRide): RideLog => readRideLog(file, readFileSync(path));
