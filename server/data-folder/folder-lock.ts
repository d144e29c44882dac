import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { DataFolderError } from '../store/data-folder-error.ts';

/** Held as long as a server uses its data folder. */
export interface FolderLock {
  release(): void;
}

/**
 * Takes the data folder for this server alone. The lock is an open transaction on a small database of its own: the
 * system itself drops it when the process ends, however it ends, so no stale lock ever keeps a folder shut.
 *
 * @throws DataFolderError `folder-in-use` while another server holds it
 */
export function takeFolderLock(folder: string): FolderLock {
  const note = join(folder, 'in-use.txt');
  const database = new Database(join(folder, 'in-use.lock'), { timeout: 0 });
  try {
    database.exec('BEGIN EXCLUSIVE');
    writeFileSync(note, `process ${process.pid}\n`);
  } catch (error) {
    database.close();
    if (!String((error as { code?: string }).code).startsWith('SQLITE_BUSY')) throw error;
    throw new DataFolderError(
      folder,
      'folder-in-use',
      `another cogwright server is using this data folder${holder(note)}`,
      'Stop it first, or start this one with a --data folder of its own.',
    );
  }
  return {
    release: () => {
      database.exec('ROLLBACK');
      database.close();
    },
  };
}

function holder(note: string): string {
  try {
    const [, process] = /^process (\d+)/.exec(readFileSync(note, 'utf8')) ?? [];
    return process ? ` (process ${process})` : '';
  } catch {
    return '';
  }
}
