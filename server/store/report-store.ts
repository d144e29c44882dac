import type { Sql } from './sql.ts';
import type { BikeReportTable } from './tables.ts';

/** Makes every report that another engine worked out count as behind. */
export const requeueReports = (sql: Sql, engineVersion: string): number =>
  sql.run(sql.build.updateTable('bike_report').set({ revision: 0 }).where('engine_version', '!=', engineVersion));

/** A bike's report as it was worked out, JSON texts, with the bike's revision that was read, in one state of the database with all the rest. */
export interface NewReport {
  readonly revision: number;
  readonly report: string;
  readonly summary: string;
  readonly detail: string;
}

/** A bike's report as it is kept, JSON texts. `revision` 0: of another engine, `report` and `detail` are then `null`. */
export interface StoredReport {
  readonly revision: number;
  readonly engineVersion: string;
  readonly report: string;
  readonly summary: string;
  readonly detail: string;
  readonly failure: string | null;
}

/** A JSON text of which nothing is kept. */
const nothing = 'null';

/**
 * The report kept for a bike; undefined where none was worked out yet. One of another engine may lack what is read of a report
 * now: only its summary is given until it is worked out anew.
 */
export function findReport(sql: Sql, bikeId: string): StoredReport | undefined {
  const row = sql.first(sql.build.selectFrom('bike_report').selectAll().where('bike_id', '=', bikeId));
  if (!row) return undefined;
  const { engine_version: engineVersion, bike_id: _, ...rest } = row;
  const outdated = rest.revision === 0;
  return { ...rest, engineVersion, ...(outdated && { report: nothing, detail: nothing }) };
}

/** Only what the list of bikes shows, by bike. */
export const listSummaries = (sql: Sql): Map<string, { revision: number; summary: string; failure: string | null }> =>
  new Map(
    sql
      .all(sql.build.selectFrom('bike_report').select(['bike_id', 'revision', 'summary', 'failure']))
      .map(({ bike_id, ...rest }) => [bike_id, rest]),
  );

/** Keeps a bike's report. A bike that is gone is passed over. */
export function keepReport(sql: Sql, bikeId: string, engineVersion: string, worked: NewReport): void {
  const { revision, report, summary, detail } = worked;
  put(sql, bikeId, { revision, report, summary, detail, engine_version: engineVersion, failure: null });
}

/** Remembers that the report of a revision could not be worked out, so that it is not tried over and over. What was kept before stays. */
export function keepReportFailure(
  sql: Sql,
  { bikeId, revision }: { readonly bikeId: string; readonly revision: number },
  engineVersion: string,
  failure: string,
): void {
  put(sql, bikeId, { revision, engine_version: engineVersion, failure });
}

/** Puts values into a bike's row; what they leave out stays as it was, and is nothing in a new row. */
function put(
  sql: Sql,
  bikeId: string,
  values: Pick<BikeReportTable, 'revision' | 'engine_version' | 'failure'> &
    Partial<Pick<BikeReportTable, 'report' | 'summary' | 'detail'>>,
): void {
  if (!sql.first(sql.build.selectFrom('bike').select('id').where('id', '=', bikeId))) return;
  const empty = { report: nothing, summary: nothing, detail: nothing };
  sql.run(
    sql.build
      .insertInto('bike_report')
      .values({ bike_id: bikeId, ...empty, ...values })
      .onConflict((conflict) => conflict.column('bike_id').doUpdateSet(values)),
  );
}
