import type { Kysely, Migration } from 'kysely';

/** What riders think of single events. */
export const judgements: Migration = {
  async up(database: Kysely<unknown>): Promise<void> {
    await database.schema
      .createTable('judgement')
      .addColumn('ride_id', 'text', (column) => column.notNull().references('ride.id').onDelete('cascade'))
      .addColumn('event_key', 'text', (column) => column.notNull())
      .addColumn('verdict', 'text', (column) => column.notNull())
      .addColumn('note', 'text', (column) => column.notNull())
      .addColumn('judged_at', 'integer', (column) => column.notNull())
      .addPrimaryKeyConstraint('judgement_key', ['ride_id', 'event_key'])
      .execute();
  },
};
