import type { Kysely, Migration } from 'kysely';

/** The tooth counts that a ride's gear records name, by which other rides of the same bike are told. */
export const recordedTeeth: Migration = {
  async up(database: Kysely<unknown>): Promise<void> {
    await database.schema
      .alterTable('ride')
      .addColumn('recorded_teeth', 'text', (column) => column.notNull().defaultTo('{"rear":[],"front":[]}'))
      .execute();
  },
};
