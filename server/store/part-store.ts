import { hasClock } from '../../src/ride-log/has-clock.ts';
import { CLOCKS_APART_S } from '../../src/ride-log/part-of-ride.ts';
import type { Sql } from './sql.ts';
import type { RideTable } from './tables.ts';

/** Starts are kept in whole milliseconds and lengths in seconds: rides this near may still share a moment. */
const NEAR_MS = 1000;

/** A ride whose records may be those of another. */
export interface ComparableRide {
  readonly id: string;
  /** Null for one that waits for its bike. */
  readonly bikeId: string | null;
  readonly file: string;
  readonly keptSha256: string;
}

/** Other rides of the same bike about the time of this one, as far as the clocks of two recorders may differ; none where its log has no clock. */
export function listAboutItsTime(sql: Sql, rideId: string): ComparableRide[] {
  const ride = clocked(sql, rideId);
  return ride ? atItsTime(sql, ride, 1000 * CLOCKS_APART_S).filter(({ bikeId }) => bikeId === ride.bike_id) : [];
}

/** Rides on any bike that hold all the time of this one, or lie within it; none where its log has no clock. */
export function listEnclosing(sql: Sql, rideId: string): ComparableRide[] {
  const ride = clocked(sql, rideId);
  if (!ride) return [];
  const within = (part: Span, whole: Span): boolean =>
    part.start_ms >= whole.start_ms - NEAR_MS &&
    part.start_ms + 1000 * part.duration_s <= whole.start_ms + 1000 * whole.duration_s + NEAR_MS;
  return atItsTime(sql, ride, NEAR_MS).filter(
    (other) => other.bikeId !== null && (within(ride, other) || within(other, ride)),
  );
}

type Span = Pick<RideTable, 'start_ms' | 'duration_s'>;

function clocked(sql: Sql, rideId: string) {
  const ride = sql.first(
    sql.build.selectFrom('ride').select(['id', 'bike_id', 'start_ms', 'duration_s']).where('id', '=', rideId),
  );
  return ride && hasClock(ride.start_ms) ? ride : null;
}

/** Other rides that begin and end no further than so much from this one. */
function atItsTime(
  sql: Sql,
  { id, start_ms, duration_s }: Span & Pick<RideTable, 'id'>,
  nearMs: number,
): (ComparableRide & Span)[] {
  return sql
    .all(
      sql.build
        .selectFrom('ride')
        .select(['id', 'bike_id', 'file', 'kept_sha256', 'start_ms', 'duration_s'])
        .where('id', '!=', id)
        .where('start_ms', '<=', start_ms + 1000 * duration_s + nearMs)
        .where((where) => where(where('start_ms', '+', where('duration_s', '*', 1000)), '>=', start_ms - nearMs))
        .orderBy('start_ms')
        .orderBy('id'),
    )
    .map(({ bike_id, kept_sha256, ...other }) => ({ ...other, bikeId: bike_id, keptSha256: kept_sha256 }));
}

/**
 * What a comparison of a ride with others found, by their ids: those that could be read, those of them that the ride is a stretch
 * of, and those that are a stretch of it. Two alike stand in both.
 */
export interface FoundParts {
  readonly compared: readonly string[];
  readonly partOf: readonly string[];
  readonly wholeOf: readonly string[];
}

/** Keeps what a comparison found, in place of what an earlier one of the same rides did. Rides that are gone since are passed over. */
export function keepParts(sql: Sql, rideId: string, { compared, partOf, wholeOf }: FoundParts): void {
  const { build } = sql;
  const there = (id: string): boolean =>
    sql.first(build.selectFrom('ride').select('id').where('id', '=', id)) !== undefined;
  for (const other of compared.filter(there)) {
    const keep = (part_id: string, whole_id: string, found: boolean): void => {
      sql.run(build.deleteFrom('ride_part').where('part_id', '=', part_id).where('whole_id', '=', whole_id));
      if (found) sql.run(build.insertInto('ride_part').values({ part_id, whole_id }));
    };
    keep(rideId, other, partOf.includes(other));
    keep(other, rideId, wholeOf.includes(other));
  }
}

/** A ride that holds all records of another. */
export interface WholeRide {
  readonly id: string;
  readonly file: string;
  readonly durationS: number;
}

/**
 * Rides that are a stretch of another one, where both are on one bike and both were analysed with the cogs it has now;
 * of one bike, or of all. Those that came first come first, and the longest whole of each.
 */
export function listParts(sql: Sql, bikeId?: string): { partId: string; whole: WholeRide }[] {
  let query = sql.build
    .selectFrom('ride_part')
    .innerJoin('ride as part', 'part.id', 'ride_part.part_id')
    .innerJoin('ride as whole', 'whole.id', 'ride_part.whole_id')
    .innerJoin('ride_analysis as part_analysis', 'part_analysis.ride_id', 'part.id')
    .innerJoin('ride_analysis as whole_analysis', 'whole_analysis.ride_id', 'whole.id')
    .innerJoin('bike', 'bike.id', 'part.bike_id')
    .select(['part.id as partId', 'whole.id', 'whole.file', 'whole.duration_s as durationS'])
    .whereRef('whole.bike_id', '=', 'part.bike_id')
    .whereRef('part_analysis.drivetrain_version', '=', 'bike.drivetrain_version')
    .whereRef('whole_analysis.drivetrain_version', '=', 'bike.drivetrain_version')
    .orderBy('part.uploaded_at')
    .orderBy('part.id')
    .orderBy('whole.duration_s', 'desc')
    .orderBy('whole.uploaded_at')
    .orderBy('whole.id');
  if (bikeId !== undefined) query = query.where('part.bike_id', '=', bikeId);
  return sql.all(query).map(({ partId, ...whole }) => ({ partId, whole }));
}
