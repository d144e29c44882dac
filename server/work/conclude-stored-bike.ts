import { median } from 'd3-array';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import type { BikeSource } from '../../src/report/own-rides.ts';
import { type Report, type ReportInShort, reportSchema } from '../../src/report/report-schema.ts';
import type { RideReport } from '../../src/report/ride-report-schema.ts';
import { ridesThatCount } from '../../src/report/rides-that-count.ts';
import { bikeState } from '../../src/report/state/bike-state.ts';
import { verdictOf } from '../../src/report/verdict-kind.ts';
import { firstStepIsAbout } from '../../src/report/words/step-is-about.ts';
import { workInShort } from '../../src/report/words/work-in-short.ts';
import { concludeBike, listRides, ownRides } from '../engine.ts';
import { cogsByLoad } from '../state/cogs-by-load.ts';
import { cogsByPeriod } from '../state/cogs-by-period.ts';
import { cogsSince, skipsByCogSince } from '../state/cogs-since.ts';
import { troubleTrend } from '../state/trouble-trend.ts';
import { listAdjustments } from '../store/adjustment-store.ts';
import { bikeAsLogged } from '../store/bike-as-logged.ts';
import { findBike, type StoredBike } from '../store/bike-store.ts';
import { openForReading } from '../store/open-database.ts';
import { findReport } from '../store/report-store.ts';
import type { Sql } from '../store/sql.ts';
import { readFindings } from './read-findings.ts';
import { StageClock } from './stage-clock.ts';
import type { ConcludeAnswer, ConcludeTask, WholeReportAnswer, WholeReportTask } from './tasks.ts';

/**
 * Works out a bike's report and what the page shows of it, from one state of the database. Null where the bike is gone.
 * The long lists of the rides are left out of the kept report: they are in the rides' own analyses.
 *
 * @throws where the report is none, as with a number that is not finite: the one kept before is better than that
 */
export function concludeStoredBike({ database, bikeId }: ConcludeTask): ConcludeAnswer | null {
  return reading(database, (sql) => {
    const clock = new StageClock();
    const read = readBike(sql, bikeId, clock);
    if (!read) return null;
    const { stored, findings, adjustments, report } = read;
    const { own } = ownRides(findings.rides, sourceOf(stored, adjustments));
    const events = own.map((ride) => ride.events);
    const state = bikeState(findings.rides.length > 0 ? report : null, own);
    return {
      revision: stored.revision,
      report: JSON.stringify(inShort(report)),
      summary: JSON.stringify({
        state,
        trend: troubleTrend(own),
        rolloutMm: medianRollout(report),
        work: workInShort(report.diagnosis.suggestion, verdictOf(report).kind),
        workPart: firstStepIsAbout(report.diagnosis.suggestion),
      }),
      detail: JSON.stringify({
        ...cogsByLoad(events, stored.bike),
        perPeriod: cogsByPeriod(own, adjustments, stored.bike),
        cogsSince: cogsSince(own, state.sinceAt, stored.bike),
        skipsByCogSince: skipsByCogSince(own, state.sinceAt, stored.bike),
      }),
      stages: clock.stages,
    };
  });
}

/** The kept report with every event of every ride put back in, as JSON; null where there is none. */
export function wholeStoredReport({ database, bikeId }: WholeReportTask): WholeReportAnswer {
  return reading(database, (sql) => {
    const found = findBike(sql, bikeId);
    const kept = findReport(sql, bikeId);
    const report = kept ? (JSON.parse(kept.report) as ReportInShort | null) : null;
    if (!found || !report) return null;
    const adjustments = adjustmentsOf(sql, bikeId);
    const stored = bikeAsLogged(found, adjustments);
    const { rides } = readFindings(sql, stored);
    return new TextEncoder().encode(
      JSON.stringify({ ...report, rides: listRides(rides, sourceOf(stored, adjustments)) }),
    );
  });
}

function readBike(sql: Sql, bikeId: string, clock: StageClock) {
  const found = findBike(sql, bikeId);
  if (!found) return null;
  const adjustments = adjustmentsOf(sql, bikeId);
  const stored = bikeAsLogged(found, adjustments);
  const findings = clock.run(
    'read analyses',
    () => readFindings(sql, stored, withoutLists),
    ({ rides }) => ({ rides: rides.length }),
  );
  const report = clock.run('conclude', () =>
    concludeBike(
      {
        bike: stored.bike,
        bikeSource: stored.source,
        bikeNotes: stored.notes,
        ...(stored.certainty !== null && { bikeCertainty: stored.certainty }),
      },
      findings.rides,
      adjustments,
      findings.failed,
    ),
  );
  workedOut.parse(report);
  return { stored, findings, adjustments, report };
}

const adjustmentsOf = (sql: Sql, bikeId: string): Adjustment[] =>
  listAdjustments(sql, bikeId).map(({ id: _, ...adjustment }) => adjustment);

const sourceOf = ({ bike, source, notes }: StoredBike, adjustments: readonly Adjustment[]): BikeSource => ({
  bike,
  bikeSource: source,
  bikeNotes: notes,
  adjustments,
});

/** What is worked out here: the rides' own parts were so when they were analysed. */
const workedOut = reportSchema.omit({ rides: true });

/** What the bike's rides measured, for telling other rides of it; null where none did. */
function medianRollout(report: Report): number | null {
  return median(ridesThatCount(report), ({ rolloutMm }) => rolloutMm) ?? null;
}

/** The report as it is kept: without the lists, since a list that was emptied would read as a ride in which nothing was seen. */
const inShort = (report: Report): ReportInShort => ({
  ...report,
  rides: report.rides.map(
    ({ shifts: _, ghostShifts: _ghosts, chainDrops: _drops, skips: _skips, gears: _gears, ...ride }) => ride,
  ),
});

/** Without the long lists while it is worked out; chain drops are few, and the bike's state hangs on them. */
const withoutLists = (ride: RideReport): RideReport => ({
  ...ride,
  shifts: [],
  ghostShifts: [],
  skips: [],
  gears: [],
});

function reading<Result>(database: string, work: (sql: Sql) => Result): Result {
  const sql = openForReading(database);
  try {
    return sql.snapshot(() => work(sql));
  } finally {
    sql.database.close();
  }
}
