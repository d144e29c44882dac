import { join } from 'node:path';
import { openDatabase } from '../../server/store/open-database.ts';
import type { Sql } from '../../server/store/sql.ts';
import { temporaryFolder } from './test-server.ts';

/** An empty store in a folder of its own, and the function that closes and removes it. */
export async function testStore(): Promise<{ sql: Sql; folder: string; remove(): void }> {
  const folder = temporaryFolder();
  const sql = await openDatabase(join(folder.path, 'cogwright.sqlite'), { backup: folder.path });
  return {
    sql,
    folder: folder.path,
    remove: () => {
      sql.database.close();
      folder.remove();
    },
  };
}
