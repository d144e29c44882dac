import { newId } from './new-id.ts';
import type { Sql } from './sql.ts';

/** How the rides of an upload find their bike: onto one that is named, each by itself, or all onto a new one. */
export type Placement = 'bike' | 'auto' | 'new';

/** Registers an upload and gives back its id. */
export function insertUpload(sql: Sql, placement: Placement): string {
  const id = newId();
  sql.run(sql.build.insertInto('upload').values({ id, placement, created_at: Date.now() }));
  return id;
}

/** Whether there is an upload with this id. */
export const hasUpload = (sql: Sql, id: string): boolean =>
  sql.first(sql.build.selectFrom('upload').select('id').where('id', '=', id)) !== undefined;

/** Forgets uploads that no ride came from, or of which none is left. None may be under way. */
export const deleteEmptyUploads = (sql: Sql): number =>
  sql.run(
    sql.build
      .deleteFrom('upload')
      .where('id', 'not in', (where) =>
        where.selectFrom('ride').select('upload_id').where('upload_id', 'is not', null),
      ),
  );

/** Forgets an upload whose id nobody was told, unless a ride came from it. */
export const deleteUploadIfEmpty = (sql: Sql, id: string): void => {
  const ride = sql.first(sql.build.selectFrom('ride').select('id').where('upload_id', '=', id));
  if (!ride) sql.run(sql.build.deleteFrom('upload').where('id', '=', id));
};
