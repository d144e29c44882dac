import type { Kysely, Migration } from 'kysely';

/** How likely a guessed bike is right; not known of those that were guessed before it was kept. */
export const bikeCertainty: Migration = {
  async up(database: Kysely<unknown>): Promise<void> {
    await database.schema.alterTable('bike').addColumn('certainty', 'real').execute();
  },
};
