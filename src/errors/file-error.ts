import { CogwrightError } from './cogwright-error.ts';

/**
 * A file that cannot be used. Message: `FILE: what was found. What to do.`
 *
 * @example new FileError('a.fit', 'no-records', 'holds no ride records', 'Export the ride again from the device.').message
 *   // 'a.fit: holds no ride records. Export the ride again from the device.'
 */
export class FileError extends CogwrightError {
  override readonly name = 'FileError';
  constructor(
    readonly file: string,
    readonly code: string,
    readonly found: string,
    readonly mend: string,
  ) {
    super(`${file}: ${found.replace(/\.$/, '')}. ${mend}`);
  }
}
