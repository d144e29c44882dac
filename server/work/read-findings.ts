import { deserialize } from 'node:v8';
import { gunzipSync } from 'node:zlib';
import type { FailedRide } from '../../src/report/report-schema.ts';
import type { RideReport } from '../../src/report/ride-report-schema.ts';
import { withToldEvents } from '../../src/report/told-events.ts';
import { duplicateRide } from '../../src/ride-log/duplicate-ride.ts';
import type { RideFindings } from '../engine.ts';
import { eventKeys } from '../judgements/event-key.ts';
import { judgeEvents } from '../judgements/judge-events.ts';
import { judgeRideReport, toldLists } from '../judgements/judge-ride-report.ts';
import { matchJudgements } from '../judgements/match-judgements.ts';
import { cutCopies } from '../state/cut-copies.ts';
import { asJudgement, type Judgement } from '../store/judgement-store.ts';
import type { Sql } from '../store/sql.ts';

/** What the analyses of a bike's rides found, with the riders' judgements applied, the earliest ride first; and the rides that do not count. */
export interface BikeFindings {
  readonly rides: readonly (RideFindings & { readonly id: string })[];
  readonly failed: readonly FailedRide[];
}

/** The bike whose analyses are read, with the cogs and for the drivetrain that they were made. */
interface AnalysedBike {
  readonly id: string;
  readonly bike: { readonly cassette: readonly number[] };
  readonly drivetrainVersion: number;
}

/**
 * Reads them from the database. Analyses made for an earlier drivetrain of the bike are left out: they are being made
 * again. So are cut copies of other rides, whose shifts would count twice.
 *
 * @param shape cuts each ride's report down as it is read, so that the lists of thousands of rides never lie in memory
 */
export function readFindings(
  sql: Sql,
  { id: bikeId, bike: { cassette }, drivetrainVersion }: AnalysedBike,
  shape: (report: RideReport) => RideReport = (report) => report,
): BikeFindings {
  const rows = sql.all(
    sql.build
      .selectFrom('ride')
      .innerJoin('ride_analysis', 'ride_analysis.ride_id', 'ride.id')
      .select(['ride.id', 'ride.file', 'ride.warnings', 'ride_analysis.events', 'ride_analysis.report'])
      .where('ride.bike_id', '=', bikeId)
      .where('ride.status', '!=', 'failed')
      .where('ride_analysis.drivetrain_version', '=', drivetrainVersion)
      .orderBy('ride.start_ms')
      .orderBy('ride.id'),
  );
  const copies = cutCopies(sql, bikeId);
  const judgements = judgementsByRide(sql, bikeId);
  const rides = rows
    .filter(({ id }) => !copies.has(id))
    .map(({ id, warnings, events: packed, report: zipped }) => {
      const found = deserialize(packed) as Omit<RideFindings, 'report'>;
      const plain = withIntakeWarnings(JSON.parse(gunzipSync(zipped).toString()) as RideReport, warnings);
      const said = judgements.get(id);
      if (!said) return { id, ...found, report: shape(plain) };
      const judged = matchJudgements(eventKeys(plain), said);
      return {
        id,
        ...found,
        events: withToldEvents(judgeEvents(found.events, found.startMs, judged), toldLists(plain, judged), {
          startMs: found.startMs,
          cassette,
        }),
        report: shape(judgeRideReport(plain, judged)),
      };
    });
  const duplicates = rows.flatMap(({ id, file }) => {
    const whole = copies.get(id);
    if (!whole) return [];
    const { code, message } = duplicateRide(file, whole.file);
    return [{ file, code, message }];
  });
  return { rides, failed: [...failedRides(sql, bikeId), ...duplicates] };
}

const failedRides = (sql: Sql, bikeId: string): FailedRide[] =>
  sql
    .all(
      sql.build
        .selectFrom('ride')
        .select(['file', 'error_code', 'error_message'])
        .where('bike_id', '=', bikeId)
        .where('status', '=', 'failed')
        .orderBy('uploaded_at'),
    )
    .map(({ file, error_code, error_message }) => ({ file, code: error_code ?? '', message: error_message ?? '' }));

/** The warnings of a ride: those of the file as it was sent come first, those of the analysis that are new after them. */
export function withIntakeWarnings(report: RideReport, intake: string): RideReport {
  const first = JSON.parse(intake) as RideReport['warnings'];
  const known = new Set(first.map(({ code }) => code));
  return { ...report, warnings: [...first, ...report.warnings.filter(({ code }) => !known.has(code))] };
}

function judgementsByRide(sql: Sql, bikeId: string): Map<string, Judgement[]> {
  const rows = sql.all(
    sql.build
      .selectFrom('judgement')
      .innerJoin('ride', 'ride.id', 'judgement.ride_id')
      .select(['judgement.ride_id', 'judgement.event_key', 'judgement.verdict', 'judgement.side', 'judgement.note'])
      .where('ride.bike_id', '=', bikeId)
      .orderBy('judgement.event_key'),
  );
  const byRide = new Map<string, Judgement[]>();
  for (const { ride_id, ...row } of rows) {
    const list = byRide.get(ride_id) ?? [];
    list.push(asJudgement(row));
    byRide.set(ride_id, list);
  }
  return byRide;
}
