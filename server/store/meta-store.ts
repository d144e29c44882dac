import type { Sql } from './sql.ts';

/** A remembered fact about the store itself. */
export type MetaKey = 'samples-loaded' | 'last-start';

/** A remembered fact; undefined where it was never written. */
export const readMeta = (sql: Sql, key: MetaKey): string | undefined =>
  sql.first(sql.build.selectFrom('meta').select('value').where('key', '=', key))?.value;

/** Remembers a fact, in place of what was remembered before. */
export const writeMeta = (sql: Sql, key: MetaKey, value: string): void =>
  void sql.run(
    sql.build
      .insertInto('meta')
      .values({ key, value })
      .onConflict((conflict) => conflict.column('key').doUpdateSet({ value })),
  );
