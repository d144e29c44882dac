import type { Kysely, Migration } from 'kysely';

/** An index that answers alone how many rides of a bike wait, however many there are. */
export const rideProgress: Migration = {
  async up(database: Kysely<unknown>): Promise<void> {
    await database.schema
      .createIndex('ride_progress')
      .on('ride')
      .columns(['bike_id', 'status', 'engine_version'])
      .execute();
  },
};
