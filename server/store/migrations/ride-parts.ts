import type { Kysely, Migration } from 'kysely';
import { sql } from 'kysely';

/**
 * Which rides are a stretch of which. Rides of one bike at the same time are analysed again, since only then are they
 * compared; a log without a clock (before 1995) is not.
 */
export const rideParts: Migration = {
  async up(database: Kysely<unknown>): Promise<void> {
    const { schema } = database;
    await schema
      .createTable('ride_part')
      .addColumn('part_id', 'text', (column) => column.notNull().references('ride.id').onDelete('cascade'))
      .addColumn('whole_id', 'text', (column) => column.notNull().references('ride.id').onDelete('cascade'))
      .addPrimaryKeyConstraint('ride_part_key', ['part_id', 'whole_id'])
      .execute();
    await schema.createIndex('ride_part_of_whole').on('ride_part').column('whole_id').execute();
    await sql`
      UPDATE ride SET status = 'queued', attempts = 0
      WHERE status = 'done' AND start_ms >= 788918400000 AND EXISTS (
        SELECT 1 FROM ride AS other
        WHERE other.bike_id = ride.bike_id AND other.id <> ride.id
          AND other.start_ms BETWEEN 788918400000 AND ride.start_ms + 1000 * ride.duration_s + 1000
          AND other.start_ms + 1000 * other.duration_s + 1000 >= ride.start_ms
      )`.execute(database);
  },
};
