import { chmodSync, closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { Kysely, Migrator, SqliteAdapter, SqliteDialect } from 'kysely';
import { DataFolderError } from './data-folder-error.ts';
import { allMigrations } from './migrations/all-migrations.ts';
import { Sql } from './sql.ts';

/** `CogW`, read as a number. */
const APPLICATION_ID = 1_131_374_423;

/** SQLite can take a change of tables back, which kysely does not count on: each run of migrations is all or nothing. */
class TransactionalDialect extends SqliteDialect {
  override createAdapter(): SqliteAdapter {
    return new (class extends SqliteAdapter {
      override get supportsTransactionalDdl(): boolean {
        return true;
      }
    })();
  }
}

/** How a database is opened. */
export interface OpenOptions {
  /** Where a copy is put before an older database is changed. */
  readonly backup: string;
  /** Migrations to run; all of them unless a test wants an older database. */
  readonly migrations?: typeof allMigrations;
}

/**
 * Opens the database, makes it where it is missing, and brings an older one up to date after copying it.
 *
 * Write-ahead log, and every transaction is flushed to the disk before it returns: what was acknowledged survives a
 * power cut, not only a crash.
 *
 * @throws DataFolderError `database-newer`, `database-strange`: nothing was changed
 */
export async function openDatabase(file: string, options: OpenOptions): Promise<Sql> {
  const migrations = options.migrations ?? allMigrations;
  const newest = Object.keys(migrations).length;
  if (existsSync(file)) refuseStrangers(file, newest);
  // For this user alone, whoever may look into the folder; SQLite gives the files beside it the same rights.
  else closeSync(openSync(file, 'wx', 0o600));
  const database = new Database(file, { timeout: 5000 });
  try {
    database.pragma('journal_mode = WAL');
    database.pragma('synchronous = FULL');
    database.pragma('foreign_keys = ON');
    const version = database.pragma('user_version', { simple: true }) as number;
    if (version < newest) {
      if (version > 0) backUp(database, join(options.backup, `before-version-${newest}.sqlite`));
      await migrate(database, migrations);
    }
    return new Sql(database);
  } catch (error) {
    database.close();
    throw error;
  }
}

/** Opens the database for reading only, as analysis workers do. */
export function openForReading(file: string): Sql {
  const database = new Database(file, { readonly: true, fileMustExist: true, timeout: 5000 });
  return new Sql(database);
}

function refuseStrangers(file: string, newest: number): void {
  const folder = dirname(file);
  let version: number;
  let id: number;
  let tables: number;
  const database = new Database(file, { readonly: true, fileMustExist: true, timeout: 5000 });
  try {
    version = database.pragma('user_version', { simple: true }) as number;
    id = database.pragma('application_id', { simple: true }) as number;
    tables = database
      .prepare("SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'kysely%'")
      .pluck()
      .get() as number;
  } catch (error) {
    const code = String((error as { code?: string }).code);
    if (code !== 'SQLITE_NOTADB' && !code.startsWith('SQLITE_CORRUPT')) throw error;
    throw strange(folder, 'holds a database that cannot be read');
  } finally {
    database.close();
  }
  if (version > newest)
    throw new DataFolderError(
      folder,
      'database-newer',
      `its database has version ${version}, this cogwright knows versions up to ${newest}`,
      'Start the newer cogwright that made it; nothing was changed.',
    );
  if ((version > 0 || tables > 0) && id !== APPLICATION_ID)
    throw strange(folder, 'holds a database of another program');
}

const strange = (folder: string, found: string): DataFolderError =>
  new DataFolderError(
    folder,
    'database-strange',
    found,
    'Name another folder with --data, or put a copy from its backup folder in the place of the database and remove the files whose names end in -wal and -shm; nothing was changed.',
  );

/** Copies the database; what stands under the name of a copy is whole. */
function backUp(database: Database.Database, copy: string): void {
  const half = `${copy}.half`;
  rmSync(half, { force: true });
  database.prepare('VACUUM INTO ?').run(half);
  chmodSync(half, 0o600);
  const handle = openSync(half, 'r+');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
  renameSync(half, existsSync(copy) ? `${copy}.${Date.now()}` : copy);
}

async function migrate(database: Database.Database, migrations: typeof allMigrations): Promise<void> {
  const names = Object.keys(migrations);
  const counted = Object.fromEntries(
    Object.entries(migrations).map(([name, migration]) => [
      name,
      {
        up: async (kysely: Kysely<unknown>) => {
          await migration.up(kysely);
          database.pragma(`user_version = ${names.indexOf(name) + 1}`);
        },
      },
    ]),
  );
  const kysely = new Kysely<unknown>({ dialect: new TransactionalDialect({ database }) });
  const { error } = await new Migrator({
    db: kysely,
    provider: { getMigrations: async () => counted },
  }).migrateToLatest();
  if (error) throw error;
}
