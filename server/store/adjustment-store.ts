import { type Adjustment, adjustmentSchema } from '../../src/adjustments/adjustment.ts';
import { inUtc } from '../../src/adjustments/in-utc.ts';
import { newId } from './new-id.ts';
import type { Sql } from './sql.ts';
import type { AdjustmentTable } from './tables.ts';
import { versionOf } from './version-of.ts';

/** An adjustment of a bike's log. */
export type StoredAdjustment = Adjustment & { readonly id: string };

const fromRow = (row: AdjustmentTable): StoredAdjustment => ({
  id: row.id,
  ...adjustmentSchema.parse({
    at: row.at,
    parameter: row.parameter,
    amount: row.amount,
    unit: row.unit,
    note: row.note,
  }),
});

const columns = (adjustment: Adjustment) => ({
  at: adjustment.at,
  at_ms: Date.parse(adjustment.at),
  parameter: adjustment.parameter,
  amount: adjustment.amount,
  unit: adjustment.unit,
  note: adjustment.note,
});

/** An adjustment with the version that a correction of it names. */
export const withVersion = (stored: StoredAdjustment): StoredAdjustment & { readonly version: string } => ({
  ...stored,
  version: versionOf(stored),
});

/** The bike's log, the earliest first. */
export const listAdjustments = (sql: Sql, bikeId: string): StoredAdjustment[] =>
  sql
    .all(sql.build.selectFrom('adjustment').selectAll().where('bike_id', '=', bikeId).orderBy('at_ms').orderBy('id'))
    .map(fromRow);

/** The bike's adjustment with this id; undefined where it has none. */
export function findAdjustment(sql: Sql, bikeId: string, id: string): StoredAdjustment | undefined {
  const row = sql.first(
    sql.build.selectFrom('adjustment').selectAll().where('id', '=', id).where('bike_id', '=', bikeId),
  );
  return row && fromRow(row);
}

/** True where some bike's log has an adjustment of this id. */
export const hasAdjustment = (sql: Sql, id: string): boolean =>
  sql.first(sql.build.selectFrom('adjustment').select('id').where('id', '=', id)) !== undefined;

/** Logs an adjustment and gives it back with its id. */
export function insertAdjustment(sql: Sql, bikeId: string, adjustment: Adjustment, id = newId()): StoredAdjustment {
  sql.run(sql.build.insertInto('adjustment').values({ id, bike_id: bikeId, ...columns(adjustment) }));
  return { id, ...adjustment };
}

/** Changes all of an adjustment but its id and its bike. */
export const updateAdjustment = (sql: Sql, id: string, adjustment: Adjustment): void =>
  void sql.run(sql.build.updateTable('adjustment').set(columns(adjustment)).where('id', '=', id));

/** Removes an adjustment. */
export const deleteAdjustment = (sql: Sql, id: string): void =>
  void sql.run(sql.build.deleteFrom('adjustment').where('id', '=', id));

/** When each bike was worked on and at what, the earliest first; of one bike only where it is named. */
export function listMarks(sql: Sql, bikeId?: string): Map<string, { at: string; parameter: string }[]> {
  let query = sql.build.selectFrom('adjustment').select(['bike_id', 'at', 'parameter']).orderBy('at_ms').orderBy('id');
  if (bikeId !== undefined) query = query.where('bike_id', '=', bikeId);
  const marks = new Map<string, { at: string; parameter: string }[]>();
  for (const { bike_id, at, parameter } of sql.all(query)) {
    const list = marks.get(bike_id) ?? [];
    // times were once stored with the offset they came with
    list.push({ at: inUtc(at), parameter });
    marks.set(bike_id, list);
  }
  return marks;
}
