import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { RawStore } from '../raw/raw-store.ts';
import { readMeta, writeMeta } from '../store/meta-store.ts';
import { newId } from '../store/new-id.ts';
import { listKeptFiles } from '../store/ride-store.ts';
import type { Sql } from '../store/sql.ts';
import { deleteEmptyUploads } from '../store/upload-store.ts';
import type { DataFolder } from './data-folder.ts';

/** What was found at the start: files thrown away, and ride files set aside. */
export interface Recovered {
  readonly halves: number;
  readonly orphans: number;
  readonly unclaimed: number;
}

/**
 * Throws away halves that a server which did not end by itself left behind: files on their way in, and kept files whose
 * ride was never registered or was just removed. Nothing of either was acknowledged to anyone.
 *
 * A database that is not the one this folder was last started with, such as a copy put back in its place or a new one,
 * does not know the rides that were added since: their files are set aside and never thrown away.
 */
export function recover(folder: DataFolder, sql: Sql, raw: RawStore): Recovered {
  const halves = readdirSync(folder.incoming);
  for (const name of halves) rmSync(join(folder.incoming, name), { force: true, recursive: true });
  sql.transaction(() => deleteEmptyUploads(sql));
  const orphans = raw.orphans(new Set(listKeptFiles(sql)));
  const ownDatabase = isOfLastStart(folder, sql);
  if (ownDatabase) for (const sha256 of orphans) raw.remove(sha256);
  else if (orphans.length > 0) {
    mkdirSync(folder.unclaimed, { mode: 0o700, recursive: true });
    for (const sha256 of orphans) renameSync(raw.path(sha256), join(folder.unclaimed, sha256));
  }
  noteStart(folder, sql);
  return {
    halves: halves.length,
    orphans: ownDatabase ? orphans.length : 0,
    unclaimed: ownDatabase ? 0 : orphans.length,
  };
}

function isOfLastStart({ lastStart }: DataFolder, sql: Sql): boolean {
  try {
    return readFileSync(lastStart, 'utf8').trim() === readMeta(sql, 'last-start');
  } catch (error) {
    if ((error as { code?: string }).code === 'ENOENT') return false;
    throw error;
  }
}

/** Marks database and folder as belonging together. After a crash between the two files are set aside once: nothing is lost. */
function noteStart({ lastStart }: DataFolder, sql: Sql): void {
  const mark = newId();
  sql.transaction(() => writeMeta(sql, 'last-start', mark));
  writeFileSync(lastStart, `${mark}\n`, { mode: 0o600 });
}
