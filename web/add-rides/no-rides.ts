import { FileError } from '../../src/errors/file-error.ts';
import { counted } from '../../src/numeric/counted.ts';
import { listedUpTo } from '../../src/numeric/listed.ts';
import { packedWith } from '../../src/ride-log/packed-with.ts';
import { rideFormat } from '../../src/ride-log/ride-format.ts';
import { pathOf } from './file-path.ts';

/** As much of a file as tells its format. */
const BEGINNING = 4096;

/** More files than this are told of together. */
const EACH = 3;

/** What is wrong with a file of which the first bytes already show that no reader takes it. */
interface NoRide {
  readonly path: string;
  readonly found: string;
  readonly mend: string;
}

/** Chosen files without those that are plainly no rides (pictures, documents, packed files), and these. A file that cannot be opened stays, for its upload to say so. */
export async function withoutNoRides(
  files: readonly File[],
): Promise<{ readonly files: readonly File[]; readonly noRides: readonly NoRide[] }> {
  const found = await Promise.all(files.map(noRide));
  return { files: files.filter((_, i) => found[i] === null), noRides: found.filter((one) => one !== null) };
}

async function noRide(file: File): Promise<NoRide | null> {
  const start = new Uint8Array(
    await file
      .slice(0, BEGINNING)
      .arrayBuffer()
      .catch(() => new ArrayBuffer(0)),
  );
  // the server unpacks it and sees what is in it
  if (packedWith(start) === 'gzip') return null;
  try {
    rideFormat(file.name, start);
    return null;
  } catch (error) {
    if (!(error instanceof FileError)) throw error;
    const { code, found, mend } = error;
    // what the beginning alone does not tell is told when the whole file is read
    return code === 'unknown-format' || code === 'packed' ? { path: pathOf(file), found, mend } : null;
  }
}

/** What to say of such files: of a few each by itself, of many together; nothing where there is none. */
export function noRideSentences(noRides: readonly NoRide[]): string[] {
  if (noRides.length <= EACH)
    return noRides.map(({ path, found, mend }) => `${path} ${found}, and was left out. ${mend}`);
  const named = noRides.map(
    ({ path, found }) => `${path} (${found.replace(/^is /, '').replace(/ and no ride log$/, '')})`,
  );
  const mends = [...new Set(noRides.map(({ mend }) => mend))].join(' ');
  return [
    `${counted(noRides.length, 'file')} cannot be read as rides and were left out: ${listedUpTo(EACH, named)}. ${mends}`,
  ];
}
