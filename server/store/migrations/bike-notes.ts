import type { Kysely, Migration } from 'kysely';

/** What was said when a bike's drivetrain was guessed: how it was found and how sure that is. */
export const bikeNotes: Migration = {
  async up(database: Kysely<unknown>): Promise<void> {
    await database.schema
      .alterTable('bike')
      .addColumn('notes', 'text', (column) => column.notNull().defaultTo('[]'))
      .execute();
  },
};
