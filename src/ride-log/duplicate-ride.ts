import { FileError } from '../errors/file-error.ts';

/** What is said of a ride that is left out, since all of its records are those of another one. */
export const duplicateRide = (file: string, whole: string): FileError =>
  new FileError(file, 'duplicate', `holds only records of the ride ${whole}`, 'They were counted once.');
