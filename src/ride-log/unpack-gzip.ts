import { constants, gunzipSync } from 'node:zlib';
import { FileError } from '../errors/file-error.ts';
import { packedWith } from './packed-with.ts';

const MEGABYTE = 1_000_000;
/** What unpacks to more than this is no ride log: one of a whole day is under 10 MB. */
const MOST_BYTES = 256 * MEGABYTE;

/** A file's name without what says that it is packed with gzip. */
export const unpackedName = (name: string): string => name.replace(/\.gz$/i, '');

/**
 * The content of a file that is packed with gzip (RFC 1952), as archives of many rides often are; other files as they are. Of one that was cut off, what
 * can be unpacked. Throws `packed` for a damaged one, `too-large` for one that unpacks to more than is read.
 */
export function unpackGzip(file: string, bytes: Uint8Array): Uint8Array {
  if (packedWith(bytes) !== 'gzip') return bytes;
  try {
    const content = gunzipSync(bytes, { maxOutputLength: MOST_BYTES, finishFlush: constants.Z_SYNC_FLUSH });
    if (content.length > 0) return content;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ERR_BUFFER_TOO_LARGE')
      throw new FileError(
        file,
        'too-large',
        `unpacks to more than the ${MOST_BYTES / MEGABYTE} MB that are read`,
        'A ride of a whole day is under 10 MB: give the ride logs themselves, each in a file of its own.',
      );
  }
  const mend = 'Download it again, or unpack it and give the file within.';
  throw new FileError(file, 'packed', 'is packed with gzip, and empty or damaged', mend);
}
