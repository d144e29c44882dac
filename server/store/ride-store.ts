import type { Insertable } from 'kysely';
import type { Warning } from '../../src/errors/warning.ts';
import type { Sql } from './sql.ts';
import type { RideTable } from './tables.ts';

/** A ride as it is stored, with what its last analysis says in short. */
export interface StoredRide {
  readonly id: string;
  readonly bikeId: string | null;
  readonly uploadId: string | null;
  readonly file: string;
  readonly sha256: string;
  readonly keptSha256: string;
  readonly bytes: number;
  readonly format: string;
  readonly positions: RideTable['positions'];
  readonly startMs: number;
  readonly durationS: number;
  readonly warnings: readonly Warning[];
  readonly status: RideTable['status'];
  /** Null unless it failed: the fault of an earlier try says nothing of a ride that waits for the next. */
  readonly error: { readonly code: string; readonly message: string } | null;
  readonly attempts: number;
  /** Null until there is an analysis. Counts follow the judgements. */
  readonly counts: Readonly<Record<string, number>> | null;
  readonly evidence: string | null;
}

const selectRides = (sql: Sql) =>
  sql.build
    .selectFrom('ride')
    .leftJoin('ride_analysis', 'ride_analysis.ride_id', 'ride.id')
    .selectAll('ride')
    .select(['ride_analysis.counts', 'ride_analysis.evidence']);

type RideRow = RideTable & { counts: string | null; evidence: string | null };

const fromRow = (row: RideRow): StoredRide => ({
  id: row.id,
  bikeId: row.bike_id,
  uploadId: row.upload_id,
  file: row.file,
  sha256: row.sha256,
  keptSha256: row.kept_sha256,
  bytes: row.bytes,
  format: row.format,
  positions: row.positions,
  startMs: row.start_ms,
  durationS: row.duration_s,
  warnings: JSON.parse(row.warnings),
  status: row.status,
  error:
    row.status !== 'failed' || row.error_code === null
      ? null
      : { code: row.error_code, message: row.error_message ?? '' },
  attempts: row.attempts,
  counts: row.counts === null ? null : JSON.parse(row.counts),
  evidence: row.evidence,
});

/** The ride with this id; undefined where there is none. */
export function findRide(sql: Sql, id: string): StoredRide | undefined {
  const row = sql.first(selectRides(sql).where('ride.id', '=', id));
  return row && fromRow(row);
}

/** The newest first; of one bike, or of one upload, or all. */
export function listRides(
  sql: Sql,
  of: { readonly bikeId?: string; readonly uploadId?: string; readonly limit?: number } = {},
): StoredRide[] {
  let query = selectRides(sql).orderBy('ride.start_ms', 'desc').orderBy('ride.id');
  if (of.bikeId !== undefined) query = query.where('ride.bike_id', '=', of.bikeId);
  if (of.uploadId !== undefined) query = query.where('ride.upload_id', '=', of.uploadId);
  if (of.limit !== undefined) query = query.limit(of.limit);
  return sql.all(query).map(fromRow);
}

/** The ride that a file became: known by its content as it was sent, or as it is kept. */
export const findRideByContent = (
  sql: Sql,
  sha256: string,
  keptSha256 = sha256,
): { id: string; bikeId: string | null } | undefined =>
  sql.first(
    sql.build
      .selectFrom('ride')
      .select(['id', 'bike_id as bikeId'])
      .where((where) =>
        where.or([where('sha256', 'in', [sha256, keptSha256]), where('kept_sha256', 'in', [sha256, keptSha256])]),
      ),
  );

/** What is known of a ride when its file has come in; the rest is set at its registration. */
export type NewRide = Omit<
  Insertable<RideTable>,
  'status' | 'error_code' | 'error_message' | 'attempts' | 'engine_version' | 'drivetrain_version' | 'uploaded_at'
>;

/** Registers a ride whose file is in the raw store; it waits for its analysis from then on. */
export const insertRide = (sql: Sql, ride: NewRide): void =>
  void sql.run(
    sql.build.insertInto('ride').values({ ...ride, uploaded_at: Date.now(), status: 'queued', attempts: 0 }),
  );

/**
 * Puts the ride on a bike; it is analysed again there. What was found with another bike's cogs goes at once, since
 * drivetrain versions tell apart the drivetrains of one bike, not those of two.
 */
export function placeRide(sql: Sql, rideId: string, bikeId: string): void {
  const elsewhere = sql.build.selectFrom('ride').select('id').where('id', '=', rideId).where('bike_id', '!=', bikeId);
  sql.run(sql.build.deleteFrom('ride_analysis').where('ride_id', 'in', elsewhere));
  sql.run(
    sql.build.updateTable('ride').set({ bike_id: bikeId, status: 'queued', attempts: 0 }).where('id', '=', rideId),
  );
}

/** Removes the ride with its analysis and judgements. Its file is removed by the caller afterwards. */
export const deleteRide = (sql: Sql, rideId: string): void =>
  void sql.run(sql.build.deleteFrom('ride').where('id', '=', rideId));

/** What the gear records of each bike's rides name, JSON, a text for each kind there is. */
export function listRecordedTeeth(sql: Sql): Map<string, string[]> {
  const rows = sql.all(
    sql.build.selectFrom('ride').select(['bike_id', 'recorded_teeth']).where('bike_id', 'is not', null).distinct(),
  );
  const byBike = new Map<string, string[]>();
  for (const { bike_id, recorded_teeth } of rows)
    byBike.set(bike_id as string, [...(byBike.get(bike_id as string) ?? []), recorded_teeth]);
  return byBike;
}

/** How many rides each bike has, and when the last one began; of one bike only where it is named. */
export function countRides(sql: Sql, bikeId?: string): Map<string, { rides: number; lastMs: number }> {
  let query = sql.build
    .selectFrom('ride')
    .select((expression) => [
      'bike_id',
      expression.fn.countAll<number>().as('rides'),
      expression.fn.max('start_ms').as('lastMs'),
    ])
    .where('bike_id', 'is not', null)
    .groupBy('bike_id');
  if (bikeId !== undefined) query = query.where('bike_id', '=', bikeId);
  return new Map(sql.all(query).map(({ bike_id, ...counts }) => [bike_id as string, counts]));
}

/** How many rides there are, of one bike or of all. */
export function totalRides(sql: Sql, bikeId?: string): number {
  let query = sql.build.selectFrom('ride').select((expression) => expression.fn.countAll<number>().as('count'));
  if (bikeId !== undefined) query = query.where('bike_id', '=', bikeId);
  return sql.first(query)?.count ?? 0;
}

/** Every address in the raw store that a ride lays claim to. */
export const listKeptFiles = (sql: Sql): string[] =>
  sql.all(sql.build.selectFrom('ride').select('kept_sha256')).map((row) => row.kept_sha256);

/** Marks a ride as one for which no bike can be found. */
export const failPlacement = (
  sql: Sql,
  rideId: string,
  fault: { readonly code: string; readonly message: string },
  engineVersion: string,
): void =>
  void sql.run(
    sql.build
      .updateTable('ride')
      .set({ status: 'failed', error_code: fault.code, error_message: fault.message, engine_version: engineVersion })
      .where('id', '=', rideId)
      .where('bike_id', 'is', null),
  );
