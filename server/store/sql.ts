import type { Database, Statement } from 'better-sqlite3';
import {
  type CompiledQuery,
  DummyDriver,
  Kysely,
  SqliteAdapter,
  SqliteIntrospector,
  SqliteQueryCompiler,
} from 'kysely';
import type { Tables } from './tables.ts';

/** A query that kysely has put into words. */
export interface Query<Row> {
  compile(): CompiledQuery<Row>;
}

/**
 * Runs kysely's queries at once, without a promise in between, so that everything between the two ends of a
 * transaction happens in one turn of the event loop and nothing can come between.
 *
 * How SQLite is used is known here, in open-database.ts, in the migrations and where the data folder is locked; queries
 * elsewhere are kysely's.
 */
export class Sql {
  readonly build = new Kysely<Tables>({
    dialect: {
      createAdapter: () => new SqliteAdapter(),
      createDriver: () => new DummyDriver(),
      createIntrospector: (database) => new SqliteIntrospector(database),
      createQueryCompiler: () => new SqliteQueryCompiler(),
    },
  });
  readonly #statements = new Map<string, Statement>();

  constructor(readonly database: Database) {}

  /** All rows. */
  all<Row>(query: Query<Row>): Row[] {
    const { sql, parameters } = query.compile();
    return this.#prepare(sql).all(...parameters) as Row[];
  }

  /** The first row, undefined where there is none. */
  first<Row>(query: Query<Row>): Row | undefined {
    const { sql, parameters } = query.compile();
    return this.#prepare(sql).get(...parameters) as Row | undefined;
  }

  /** Runs a write; returns how many rows it changed. */
  run(query: Query<unknown>): number {
    const { sql, parameters } = query.compile();
    return this.#prepare(sql).run(...parameters).changes;
  }

  /** All of `work` or nothing of it. On disk before it returns. `work` must not return a promise. */
  transaction<Result>(work: () => Result): Result {
    return this.database.transaction(work).immediate();
  }

  /** Reads within `work` all see one state of the database. */
  snapshot<Result>(work: () => Result): Result {
    return this.database.transaction(work).deferred();
  }

  #prepare(sql: string): Statement {
    let statement = this.#statements.get(sql);
    if (!statement) {
      statement = this.database.prepare(sql);
      this.#statements.set(sql, statement);
    }
    return statement;
  }
}
