import { FileError } from '../errors/file-error.ts';

/** What is said of a ride that is left out, since another one holds it. */
export const duplicateRide = (file: string, whole: string): FileError =>
  new FileError(file, 'duplicate', `holds nothing but the ride ${whole} or a part of it`, 'It was counted once.');
