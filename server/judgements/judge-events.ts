import { momentIso } from '../../src/report/moment-iso.ts';
import type { RideReport } from '../../src/report/report-schema.ts';
import { openExpectation } from '../../src/shifts/open-expectation.ts';
import type { Outcome, OutcomeProbability, RideEvents, ShiftEvent } from '../../src/shifts/ride-events.ts';
import type { Judgement } from '../store/judgement-store.ts';
import { type EventKind, eventKey } from './event-key.ts';

/** Judgements by event key, as `matchJudgements` gives them. */
export type Judged = ReadonlyMap<string, Pick<Judgement, 'verdict'>>;

const certainly = (outcome: Outcome): OutcomeProbability => ({
  clean: 0,
  late: 0,
  missed: 0,
  overshot: 0,
  ...(outcome === 'unjudged' ? {} : { [outcome]: 1 }),
});

/**
 * What a shift counts as once the rider has spoken: a rejected late, missed or overshot shift was clean; a rejected
 * clean one was something nobody knows, so it is not judged; a confirmed one is as it was found.
 */
export const judgedOutcome = (outcome: Outcome, verdict: Judgement['verdict']): Outcome => {
  if (verdict === 'confirmed') return outcome;
  return outcome === 'clean' || outcome === 'unjudged' ? 'unjudged' : 'clean';
};

/**
 * The events of a ride as the rider's judgements leave them, for tallies and diagnosis. Rejected ghost shifts, chain
 * drops and skips are taken out; what is confirmed, or made clean, is certain.
 */
export function judgeEvents(events: RideEvents, startMs: number, judged: Judged): RideEvents {
  if (judged.size === 0) return events;
  const verdict = (kind: EventKind, timeS: number) => judged.get(eventKey(kind, momentIso(startMs, timeS)))?.verdict;
  const rest = <Event extends { readonly timeS: number; readonly confidence: number }>(
    kind: EventKind,
    list: readonly Event[],
  ): Event[] =>
    list
      .filter((event) => verdict(kind, event.timeS) !== 'rejected')
      .map((event) => (verdict(kind, event.timeS) === 'confirmed' ? { ...event, confidence: 1 } : event));
  return {
    ...events,
    shifts: events.shifts.map((shift): ShiftEvent => {
      const said = verdict('shift', shift.timeS);
      if (!said) return shift;
      const outcome = judgedOutcome(shift.outcome, said);
      return {
        ...shift,
        outcome,
        crankRevs: said === 'rejected' ? null : shift.crankRevs,
        confidence: outcome === 'unjudged' ? 0 : 1,
        probability: certainly(outcome),
        expected: openExpectation,
      };
    }),
    ghostShifts: rest('ghost', events.ghostShifts),
    chainDrops: rest('drop', events.chainDrops),
    skips: rest('skip', events.skips),
  };
}

/** The same for a ride's report: its lists and its counts. */
export function judgeRideReport(report: RideReport, judged: Judged): RideReport {
  if (judged.size === 0) return report;
  const rest = <Event extends { at: string; confidence: number }>(kind: EventKind, list: Event[]): Event[] =>
    list
      .filter(({ at }) => judged.get(eventKey(kind, at))?.verdict !== 'rejected')
      .map((event) => (judged.has(eventKey(kind, event.at)) ? { ...event, confidence: 1 } : event));
  const shifts = report.shifts.map((shift) => {
    const said = judged.get(eventKey('shift', shift.at))?.verdict;
    if (!said) return shift;
    const outcome = judgedOutcome(shift.outcome, said);
    return {
      ...shift,
      outcome,
      crankRevs: said === 'rejected' ? null : shift.crankRevs,
      confidence: outcome === 'unjudged' ? 0 : 1,
    };
  });
  const lists = {
    shifts,
    ghostShifts: rest('ghost', report.ghostShifts),
    chainDrops: rest('drop', report.chainDrops),
    skips: rest('skip', report.skips),
  };
  const outcomes: Record<Outcome, number> = { clean: 0, late: 0, missed: 0, overshot: 0, unjudged: 0 };
  for (const { outcome } of shifts) outcomes[outcome]++;
  return {
    ...report,
    ...lists,
    counts: {
      ...report.counts,
      ...outcomes,
      shifts: shifts.length,
      ghostShifts: lists.ghostShifts.length,
      chainDrops: lists.chainDrops.length,
      skips: lists.skips.length,
    },
  };
}
