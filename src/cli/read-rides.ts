import { createHash } from 'node:crypto';
import { readFileSync, statSync } from 'node:fs';
import { CogwrightError } from '../errors/cogwright-error.ts';
import { FileError } from '../errors/file-error.ts';
import type { FailedRide } from '../report/report-schema.ts';
import { readRideLog } from '../ride-log/read-ride-log.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { warnOfRideToCome } from '../ride-log/still-to-come.ts';
import { unpackGzip } from '../ride-log/unpack-gzip.ts';
import type { Progress } from './progress.ts';
import { notARide } from './read-companion.ts';
import { unreadable } from './read-error.ts';

const MEGABYTE = 1_000_000;
/** A ride log of a whole day is under 10 MB; what is larger than this is no ride log. */
const MOST_BYTES = 256 * MEGABYTE;

/** The rides that could be read, and those that could not with the reason. */
export interface ReadRides {
  readonly logs: readonly RideLog[];
  readonly failed: readonly FailedRide[];
}

/** Reads and decodes ride files one after the other. A file that fails does not stop the others; one that holds the same bytes as another counts once. */
export function readRides(files: readonly string[], progress: Progress): ReadRides {
  const logs: RideLog[] = [];
  const failed: FailedRide[] = [];
  const seen = new Map<string, string>();
  files.forEach((file, i) => {
    progress.tell('Reading', i);
    try {
      const bytes = unpackGzip(file, readBytes(file));
      const print = createHash('sha256').update(bytes).digest('hex');
      const twin = seen.get(print);
      if (twin !== undefined)
        throw new FileError(file, 'duplicate', `is the same ride as ${twin}`, 'It was counted once.');
      logs.push(warnOfRideToCome(readRideLog(file, bytes), Date.now()));
      seen.set(print, file);
    } catch (error) {
      if (!(error instanceof CogwrightError)) throw error;
      const { code, message } = notARide(file) ?? error;
      failed.push({ file, code, message });
    }
  });
  return { logs, failed };
}

function readBytes(file: string): Uint8Array {
  let size: number;
  try {
    size = statSync(file).size;
    if (size <= MOST_BYTES) return readFileSync(file);
  } catch (error) {
    throw unreadable(file, error);
  }
  throw new FileError(
    file,
    'too-large',
    `is ${Math.ceil(size / MEGABYTE)} MB, more than the ${MOST_BYTES / MEGABYTE} MB that are read`,
    'A ride of a whole day is under 10 MB: give the ride logs themselves, each in a file of its own.',
  );
}
