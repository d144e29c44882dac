import { readdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { companionKind } from '../adjustments/companion-kind.ts';
import { counted } from '../numeric/counted.ts';
import { listedUpTo } from '../numeric/listed.ts';
import { readTextFile } from './read-text-file.ts';

/** So many bike files are named. */
const MOST_NAMED = 3;
/** No bike file is longer. */
const MOST_BYTES = 65_536;

/**
 * What to say of bike files that lie beside the rides of a folder and were left alone there: that the bike is guessed though it is described, or
 * that the rides seem to be of several bikes. Null where there is nothing to say.
 *
 * @param paths as they were given
 * @param rides the rides found by them
 * @param given the bike file that was given
 */
export function bikeFilesLeft(
  paths: readonly string[],
  rides: readonly string[],
  given: string | undefined,
): string | null {
  if (!paths.some(isFolder)) return null;
  const beside = [...new Set(rides.map((file) => dirname(file)))].flatMap(bikeFilesIn);
  if (beside.length > 1) {
    return `cogwright: ${counted(beside.length, 'bike file')} lie beside these rides (${listedUpTo(MOST_NAMED, beside)}), but all are taken for rides of one bike. Give the folder of each bike by itself, with its --bike.`;
  }
  const [file] = beside;
  if (file === undefined || given !== undefined) return null;
  return `cogwright: ${file}: is a bike file, and was left alone. Give it with --bike ${file}; without it the bike is guessed from the rides.`;
}

const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;

/** Bike files in a folder, each once. What may not be looked into is none: that its rides cannot be read is said already. */
function bikeFilesIn(folder: string): string[] {
  try {
    const files = readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isFile() && /^[^.].*\.json$/i.test(entry.name))
      .map(({ name }) => join(folder, name));
    return files.filter(isBikeFile);
  } catch {
    return [];
  }
}

/** Told by the whole of a file: cut off, a saved report looks like a bike file as well. */
function isBikeFile(path: string): boolean {
  try {
    return statSync(path).size <= MOST_BYTES && companionKind(readTextFile(path)) === 'bike';
  } catch {
    return false;
  }
}
