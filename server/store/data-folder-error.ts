import { CogwrightError } from '../../src/errors/cogwright-error.ts';

/** What is wrong with a data folder: another server holds it, the disk does not let it be written, or its database is not one of this version. */
export type DataFolderFault =
  | 'folder-in-use'
  | 'folder-not-writable'
  | 'disk-full'
  | 'database-newer'
  | 'database-strange';

/** The data folder cannot be used, and nothing in it was changed. Message: `FOLDER: what was found. What to do.` */
export class DataFolderError extends CogwrightError {
  override readonly name = 'DataFolderError';
  constructor(
    readonly folder: string,
    readonly code: DataFolderFault,
    found: string,
    mend: string,
  ) {
    super(`${folder}: ${found}. ${mend}`);
  }
}
