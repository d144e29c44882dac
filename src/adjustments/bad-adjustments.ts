import { FileError } from '../errors/file-error.ts';

/** So many of the faults in a file are named. */
const MOST_NAMED = 8;

/** The error of an adjustments file with these faults, a clause each. */
export function badAdjustments(file: string, faults: readonly string[]): FileError {
  const more = faults.length - MOST_NAMED;
  const named = faults.slice(0, MOST_NAMED).join('; ') + (more > 0 ? `; and ${more} more` : '');
  return new FileError(file, 'bad-adjustments', named, 'Mend the adjustments file and try again.');
}
