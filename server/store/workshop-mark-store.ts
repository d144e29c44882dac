import type { Sql } from './sql.ts';
import type { WorkshopMark } from './workshop-mark.ts';

/** The marks of the bikes that are set aside for the workshop, by bike; of one bike only where it is named. */
export function listWorkshopMarks(sql: Sql, bikeId?: string): Map<string, WorkshopMark> {
  let query = sql.build.selectFrom('workshop_mark').selectAll();
  if (bikeId !== undefined) query = query.where('bike_id', '=', bikeId);
  return new Map(sql.all(query).map(({ bike_id, day, note }) => [bike_id, { on: day, note }]));
}

/** Sets a bike aside, or changes what is said of it. */
export function putWorkshopMark(sql: Sql, bikeId: string, { on, note }: WorkshopMark): void {
  const values = { day: on, note };
  sql.run(
    sql.build
      .insertInto('workshop_mark')
      .values({ bike_id: bikeId, ...values })
      .onConflict((conflict) => conflict.column('bike_id').doUpdateSet(values)),
  );
}

/** Puts a bike back in use. */
export const deleteWorkshopMark = (sql: Sql, bikeId: string): void =>
  void sql.run(sql.build.deleteFrom('workshop_mark').where('bike_id', '=', bikeId));
