import { gunzipSync } from 'node:zlib';
import type { RideReport } from '../../src/report/ride-report-schema.ts';
import type { Sql } from './sql.ts';

/** An analysis of a ride as the database keeps it. */
export interface StoredAnalysis {
  /** Serialized `RideFindings` without the report. */
  readonly events: Uint8Array;
  /** The ride's report (`RideReport`), JSON, gzip. */
  readonly report: Uint8Array;
  /** Columns of the timeline, JSON, gzip. */
  readonly columns: Uint8Array;
  /** Counts before judgements, JSON. */
  readonly counts: string;
  readonly evidence: string;
}

/** The engine's report of a ride, before judgements; undefined while there is no analysis. */
export function findRideReport(sql: Sql, rideId: string): RideReport | undefined {
  const row = sql.first(sql.build.selectFrom('ride_analysis').select('report').where('ride_id', '=', rideId));
  return row && (JSON.parse(gunzipSync(row.report).toString()) as RideReport);
}

/** The columns of a ride for its timeline, gzipped JSON. */
export const findColumns = (sql: Sql, rideId: string): Buffer | undefined =>
  sql.first(sql.build.selectFrom('ride_analysis').select('columns').where('ride_id', '=', rideId))?.columns;

/** Keeps a ride's counts, JSON, after judgements changed. */
export const updateCounts = (sql: Sql, rideId: string, counts: string): void =>
  void sql.run(sql.build.updateTable('ride_analysis').set({ counts }).where('ride_id', '=', rideId));

/** The engine's gzipped report of a ride and its counts as they stand. */
export const findPackedReport = (sql: Sql, rideId: string): { report: Buffer; counts: string } | undefined =>
  sql.first(sql.build.selectFrom('ride_analysis').select(['report', 'counts']).where('ride_id', '=', rideId));
