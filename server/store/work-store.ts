import type { StoredAnalysis } from './analysis-store.ts';
import { touchBike } from './bike-store.ts';
import type { Sql } from './sql.ts';

// What is left to do is told by the tables alone, so nothing is forgotten when the server stops at any moment.

/** A ride that waits for its analysis on its bike. */
export interface WaitingRide {
  readonly id: string;
  readonly bikeId: string;
  readonly uploadId: string | null;
  readonly file: string;
  readonly keptSha256: string;
  readonly attempts: number;
}

/** The next rides to analyse: those begun least often first, so that one that kills its server holds up no other. */
export const nextRides = (sql: Sql, besides: ReadonlySet<string>, count: number): WaitingRide[] =>
  sql
    .all(
      sql.build
        .selectFrom('ride')
        .select(['id', 'bike_id', 'upload_id', 'file', 'kept_sha256', 'attempts'])
        .where('status', '=', 'queued')
        .where('bike_id', 'is not', null)
        .orderBy('attempts')
        .orderBy('uploaded_at')
        .limit(count + besides.size),
    )
    .filter(({ id }) => !besides.has(id))
    .slice(0, count)
    .map((row) => ({
      id: row.id,
      bikeId: row.bike_id as string,
      uploadId: row.upload_id,
      file: row.file,
      keptSha256: row.kept_sha256,
      attempts: row.attempts,
    }));

/** Rides that no bike is known for yet, with the way they asked to be placed, the oldest first. */
export const unplacedRides = (sql: Sql) =>
  sql.all(
    sql.build
      .selectFrom('ride')
      .leftJoin('upload', 'upload.id', 'ride.upload_id')
      .select(['ride.id', 'ride.file', 'ride.kept_sha256', 'ride.upload_id', 'ride.duration_s', 'upload.placement'])
      .where('ride.bike_id', 'is', null)
      .where('ride.status', '=', 'queued')
      .orderBy('ride.uploaded_at')
      .orderBy('ride.id'),
  );

/** Counts one more try to analyse a ride, before it is made. */
export const beginAttempt = (sql: Sql, rideId: string): void =>
  void sql.run(
    sql.build
      .updateTable('ride')
      .set((expression) => ({ attempts: expression('attempts', '+', 1) }))
      .where('id', '=', rideId),
  );

/** Counts a try no longer: the server was told to stop, or the bike was changed meanwhile, which says nothing of the ride. */
export const takeBackAttempt = (sql: Sql, rideId: string): void =>
  void sql.run(
    sql.build
      .updateTable('ride')
      .set((expression) => ({ attempts: expression('attempts', '-', 1) }))
      .where('id', '=', rideId)
      .where('attempts', '>', 0),
  );

/** With what a result was worked out; it is worth nothing if the ride has moved on since. */
export interface WorkedWith {
  readonly bikeId: string;
  readonly drivetrainVersion: number;
  readonly engineVersion: string;
}

const stillWanted = (sql: Sql, rideId: string, worked: WorkedWith): boolean =>
  sql.first(
    sql.build
      .selectFrom('ride')
      .innerJoin('bike', 'bike.id', 'ride.bike_id')
      .select('ride.id')
      .where('ride.id', '=', rideId)
      .where('bike.id', '=', worked.bikeId)
      .where('bike.drivetrain_version', '=', worked.drivetrainVersion),
  ) !== undefined;

/** A fault of the ride itself: the rider is told, nothing else stops. */
export interface RideFault {
  readonly code: string;
  readonly message: string;
}

/** Keeps an analysis. False where the ride is gone or its bike has changed since: the ride stays queued. */
export function keepAnalysis(
  sql: Sql,
  rideId: string,
  worked: WorkedWith,
  analysis: StoredAnalysis,
  counts: string,
): boolean {
  if (!stillWanted(sql, rideId, worked)) return false;
  const values = {
    engine_version: worked.engineVersion,
    drivetrain_version: worked.drivetrainVersion,
    counts,
    evidence: analysis.evidence,
    events: Buffer.from(analysis.events),
    report: Buffer.from(analysis.report),
    columns: Buffer.from(analysis.columns),
  };
  sql.run(
    sql.build
      .insertInto('ride_analysis')
      .values({ ride_id: rideId, ...values })
      .onConflict((conflict) => conflict.column('ride_id').doUpdateSet(values)),
  );
  endRide(sql, rideId, worked, 'done', null);
  return true;
}

/** Marks a ride as one that cannot be analysed, with the reason. False as for `keepAnalysis`. */
export function failRide(sql: Sql, rideId: string, worked: WorkedWith, fault: RideFault): boolean {
  if (!stillWanted(sql, rideId, worked)) return false;
  sql.run(sql.build.deleteFrom('ride_analysis').where('ride_id', '=', rideId));
  endRide(sql, rideId, worked, 'failed', fault);
  return true;
}

function endRide(
  sql: Sql,
  rideId: string,
  worked: WorkedWith,
  status: 'done' | 'failed',
  fault: RideFault | null,
): void {
  sql.run(
    sql.build
      .updateTable('ride')
      .set({
        status,
        attempts: 0,
        error_code: fault?.code ?? null,
        error_message: fault?.message ?? null,
        engine_version: worked.engineVersion,
        drivetrain_version: worked.drivetrainVersion,
      })
      .where('id', '=', rideId),
  );
  touchBike(sql, worked.bikeId);
}

/**
 * Queues every ride again whose result was worked out by another engine or for another drivetrain. Returns how many.
 * Their old results stay and are shown until the new ones are there.
 */
export function requeueStale(sql: Sql, engineVersion: string): number {
  return sql.run(
    sql.build
      .updateTable('ride')
      .set({ status: 'queued', attempts: 0 })
      .where('status', '!=', 'queued')
      .where((where) =>
        where.or([
          where('engine_version', '!=', engineVersion),
          where(
            'drivetrain_version',
            '!=',
            where.selectFrom('bike').select('bike.drivetrain_version').whereRef('bike.id', '=', 'ride.bike_id'),
          ),
        ]),
      ),
  );
}

/** How far each bike's report is behind: its rides that wait, of these those that were analysed before, and its revision. */
export interface BikeBacklog {
  readonly bikeId: string;
  readonly revision: number;
  readonly reportRevision: number | null;
  readonly failure: string | null;
  readonly queued: number;
  readonly again: number;
  readonly rides: number;
}

/** What is still to be done for each bike, or for one. */
export function bikeBacklogs(sql: Sql, bikeId?: string): BikeBacklog[] {
  let query = sql.build
    .selectFrom('bike')
    .leftJoin('bike_report', 'bike_report.bike_id', 'bike.id')
    .select(['bike.id as bikeId', 'bike.revision', 'bike_report.revision as reportRevision', 'bike_report.failure'])
    .select((expression) => {
      const rides = expression
        .selectFrom('ride')
        .whereRef('ride.bike_id', '=', 'bike.id')
        .select((ride) => ride.fn.countAll<number>().as('count'));
      const queued = rides.where('ride.status', '=', 'queued');
      return [
        rides.$asScalar().$notNull().as('rides'),
        queued.$asScalar().$notNull().as('queued'),
        queued.where('ride.engine_version', 'is not', null).$asScalar().$notNull().as('again'),
      ];
    });
  if (bikeId !== undefined) query = query.where('bike.id', '=', bikeId);
  return sql.all(query);
}
