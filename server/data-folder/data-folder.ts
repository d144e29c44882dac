import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, rmSync, writeSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { DataFolderError } from '../store/data-folder-error.ts';
import { type FolderLock, takeFolderLock } from './folder-lock.ts';
import { storageFault } from './storage-fault.ts';

/**
 * Where everything of one server lies:
 *
 * - `cogwright.sqlite`: the database
 * - `raw/ab/ab12…`: ride files as they are kept, named by their SHA-256
 * - `incoming/`: files on their way in; what is found here at start is a half and is thrown away
 * - `backup/`: copies of the database from before each migration
 * - `unclaimed/`: ride files that a database put here from elsewhere does not know; only there once that happened
 * - `last-start.txt`: which database this folder was last started with
 * - `in-use.lock`, `in-use.txt`: held by the server that runs
 */
export interface DataFolder {
  readonly path: string;
  readonly database: string;
  readonly raw: string;
  readonly incoming: string;
  readonly backup: string;
  readonly unclaimed: string;
  readonly lastStart: string;
  release(): void;
}

/**
 * Makes the folder where it is missing, takes it for this server alone, and makes sure that it can be written to.
 *
 * @throws DataFolderError `folder-in-use`, `folder-not-writable`, `disk-full`
 */
export function openDataFolder(where: string): DataFolder {
  const path = resolve(where);
  const folder = {
    path,
    database: join(path, 'cogwright.sqlite'),
    raw: join(path, 'raw'),
    incoming: join(path, 'incoming'),
    backup: join(path, 'backup'),
    unclaimed: join(path, 'unclaimed'),
    lastStart: join(path, 'last-start.txt'),
  };
  let lock: FolderLock | undefined;
  try {
    makeFolder(path);
    lock = takeFolderLock(path);
    for (const part of [folder.raw, folder.incoming, folder.backup]) makeFolder(part);
    proveWritable(join(folder.incoming, 'write-check'));
    return { ...folder, release: lock.release };
  } catch (error) {
    lock?.release();
    throw refusal(path, error);
  }
}

/** The clear refusal for an error of the disk; any other error as it is. */
export function refusal(path: string, error: unknown): unknown {
  const fault = storageFault(error);
  if (fault === 'disk-full')
    return new DataFolderError(path, 'disk-full', 'the disk is full', 'Free some space and start again.');
  if (fault === 'read-only' || ['ENOTDIR', 'EEXIST', 'ENOENT'].includes((error as { code?: string }).code ?? ''))
    return new DataFolderError(
      path,
      'folder-not-writable',
      'the data folder cannot be made or written to',
      'Give yourself the right to write there, or start with --data and a folder of your own.',
    );
  return error;
}

/** Makes a folder and those above it, for this user only. Node's own `recursive` never ends where the system answers ENOENT. */
function makeFolder(path: string): void {
  if (existsSync(path)) return;
  makeFolder(dirname(path));
  mkdirSync(path, { mode: 0o700 });
}

function proveWritable(file: string): void {
  const handle = openSync(file, 'w', 0o600);
  try {
    writeSync(handle, Buffer.alloc(64 * 1024));
    fsyncSync(handle);
  } finally {
    closeSync(handle);
    rmSync(file, { force: true });
  }
}
