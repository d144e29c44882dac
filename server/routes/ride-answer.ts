import type { z } from 'zod';
import type { RideReport } from '../../src/report/ride-report-schema.ts';
import { type EventKind, eventKey, eventKeys } from '../judgements/event-key.ts';
import { judgeFound } from '../judgements/judge-events.ts';
import { toldLists, withTold } from '../judgements/judge-ride-report.ts';
import { matchJudgements } from '../judgements/match-judgements.ts';
import type { Services } from '../services.ts';
import type { judgedRideReportShape, rideSummaryShape } from '../shapes/ride-shapes.ts';
import { cutCopies, cutCopyWarning } from '../state/cut-copies.ts';
import { findRideReport } from '../store/analysis-store.ts';
import { listJudgements } from '../store/judgement-store.ts';
import type { StoredRide } from '../store/ride-store.ts';
import { withIntakeWarnings } from '../work/read-findings.ts';
import { clockedIso } from './clocked-iso.ts';
import { rideStatus } from './ride-status.ts';

type AnsweringServices = Pick<Services, 'sql' | 'queue'>;
type RideSummary = z.input<typeof rideSummaryShape>;

/** Rides in short. One that is a cut copy of another says so among its warnings. */
export function rideSummaries(rides: readonly StoredRide[], { sql, queue }: AnsweringServices): RideSummary[] {
  const bikeIds = new Set(rides.map(({ bikeId }) => bikeId));
  const [only] = bikeIds;
  const copies = cutCopies(sql, bikeIds.size === 1 ? (only ?? undefined) : undefined);
  return rides.map((ride) => {
    const whole = copies.get(ride.id);
    return {
      id: ride.id,
      bikeId: ride.bikeId,
      file: ride.file,
      sha256: ride.sha256,
      bytes: ride.bytes,
      start: clockedIso(ride.startMs),
      durationS: ride.durationS,
      counts: ride.counts as RideReport['counts'] | null,
      evidence: ride.evidence as RideReport['evidence'] | null,
      status: rideStatus(ride, queue),
      ...(ride.error && { error: ride.error }),
      warnings: [...(whole ? [cutCopyWarning(whole)] : []), ...ride.warnings],
      positions: ride.positions,
    };
  });
}

/** A ride with everything found in it and what the rider said of it. */
export function rideDetail(ride: StoredRide, services: AnsweringServices) {
  const judgements = listJudgements(services.sql, ride.id);
  const plain = findRideReport(services.sql, ride.id);
  const [summary] = rideSummaries([ride], services);
  const report = plain ? withVerdicts(withIntakeWarnings(plain, JSON.stringify(summary.warnings)), judgements) : null;
  return { ...summary, counts: report?.counts ?? summary.counts, report, judgements };
}

/** The report as the judgements leave it. Every event has its key and what was said of it; where that is something, also what had been found. */
export function withVerdicts(
  report: RideReport,
  judgements: ReturnType<typeof listJudgements>,
): z.input<typeof judgedRideReportShape> {
  const matched = matchJudgements(eventKeys(report), judgements);
  const marked = <Event extends { at: string }, Found>(kind: EventKind, event: Event, found: Found) => {
    const key = eventKey(kind, event.at);
    const verdict = matched.get(key)?.verdict ?? null;
    return { ...event, eventKey: key, verdict, found: verdict && found };
  };
  const byRider = <Event extends { at: string }>(kind: EventKind, events: readonly Event[]) =>
    events.map((event) => ({ ...event, eventKey: eventKey(kind, event.at), verdict: 'told' as const, found: null }));
  const others = <Event extends { at: string; confidence: number }>(kind: EventKind, events: readonly Event[]) =>
    events.map((event) => marked(kind, event, { confidence: event.confidence }));
  const ghostShifts = others('ghost', report.ghostShifts);
  const chainDrops = report.chainDrops.map((drop) =>
    marked('drop', drop, { side: drop.side, confidence: drop.confidence }),
  );
  const skips = others('skip', report.skips);
  const shifts = report.shifts.map((shift) => {
    const { outcome, unjudgedBecause, crankRevs, confidence } = shift;
    return marked('shift', shift, { outcome, unjudgedBecause, crankRevs, confidence });
  });
  const left = judgeFound({ ...report, shifts, ghostShifts, chainDrops, skips }, matched);
  const told = toldLists(report, matched);
  return {
    ...withTold<typeof left>(left, {
      chainDrops: byRider('drop', told.chainDrops),
      skips: byRider('skip', told.skips),
    }),
    rejected: {
      ghostShifts: without(ghostShifts, left.ghostShifts),
      chainDrops: without(chainDrops, left.chainDrops),
      skips: without(skips, left.skips),
    },
  };
}

/** The events that a list lost: those that were rejected, and those that fell with the shift before them. */
function without<Event extends { readonly eventKey: string }>(
  events: readonly Event[],
  left: readonly Event[],
): Event[] {
  const kept = new Set(left.map(({ eventKey }) => eventKey));
  return events.filter(({ eventKey }) => !kept.has(eventKey));
}
