import type { z } from 'zod';
import type { RideReport } from '../../src/report/report-schema.ts';
import { eventKey, eventKeys, eventLists } from '../judgements/event-key.ts';
import { matchJudgements } from '../judgements/match-judgements.ts';
import type { Services } from '../services.ts';
import type { judgedRideReportShape, rideSummaryShape } from '../shapes/ride-shapes.ts';
import { cutCopies, cutCopyWarning } from '../state/cut-copies.ts';
import { findRideReport } from '../store/analysis-store.ts';
import { listJudgements } from '../store/judgement-store.ts';
import type { StoredRide } from '../store/ride-store.ts';
import { withIntakeWarnings } from '../work/read-findings.ts';
import { clockedIso } from './clocked-iso.ts';

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
      status: ride.status === 'queued' && queue.isAnalysing(ride.id) ? 'analysing' : ride.status,
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
  return {
    ...summary,
    report: report && { ...report, counts: summary.counts ?? report.counts },
    judgements,
  };
}

/** Gives every event its key and what was said of it. None is taken out, so that a judgement can be taken back. */
function withVerdicts(
  report: RideReport,
  judgements: ReturnType<typeof listJudgements>,
): z.input<typeof judgedRideReportShape> {
  const matched = matchJudgements(eventKeys(report), judgements);
  const keyed = <Event extends { at: string }>(list: keyof typeof eventLists, events: Event[]) =>
    events.map((event) => {
      const key = eventKey(eventLists[list], event.at);
      return { ...event, eventKey: key, verdict: matched.get(key)?.verdict ?? null };
    });
  return {
    ...report,
    shifts: keyed('shifts', report.shifts),
    ghostShifts: keyed('ghostShifts', report.ghostShifts),
    chainDrops: keyed('chainDrops', report.chainDrops),
    skips: keyed('skips', report.skips),
  };
}
