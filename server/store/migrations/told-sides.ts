import type { Kysely, Migration } from 'kysely';

/** Where a chain went that a rider told of and no log shows. */
export const toldSides: Migration = {
  async up(database: Kysely<unknown>): Promise<void> {
    await database.schema.alterTable('judgement').addColumn('side', 'text').execute();
  },
};
