import type { Kysely, Migration } from 'kysely';

/** Bikes that their keeper set aside for the workshop by hand, whatever their rides say. */
export const workshopMarks: Migration = {
  async up(database: Kysely<unknown>): Promise<void> {
    await database.schema
      .createTable('workshop_mark')
      .addColumn('bike_id', 'text', (column) => column.primaryKey().references('bike.id').onDelete('cascade'))
      .addColumn('day', 'text')
      .addColumn('note', 'text', (column) => column.notNull())
      .execute();
  },
};
