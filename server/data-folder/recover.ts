import { readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { RawStore } from '../raw/raw-store.ts';
import { listKeptFiles } from '../store/ride-store.ts';
import type { Sql } from '../store/sql.ts';
import { deleteEmptyUploads } from '../store/upload-store.ts';
import type { DataFolder } from './data-folder.ts';

/** What a server that did not end by itself left behind. */
export interface Recovered {
  readonly halves: number;
  readonly orphans: number;
}

/**
 * Throws away halves: files that were on their way in, and kept files whose ride was never registered. Nothing of
 * either was acknowledged to anyone.
 */
export function recover(folder: DataFolder, sql: Sql, raw: RawStore): Recovered {
  const halves = readdirSync(folder.incoming);
  for (const name of halves) rmSync(join(folder.incoming, name), { force: true, recursive: true });
  sql.transaction(() => deleteEmptyUploads(sql));
  return { halves: halves.length, orphans: raw.removeOrphans(new Set(listKeptFiles(sql))) };
}
