import type { RideReport } from '../../src/report/ride-report-schema.ts';
import { cogAt } from '../../src/report/told-events.ts';
import { sinceStart } from '../../src/report/words/ride-time-words.ts';
import { RequestError } from '../http/request-error.ts';
import { type EventKind, eventKeys, keyMoment, eventKey as keyOf } from '../judgements/event-key.ts';
import { judgeRideReport } from '../judgements/judge-ride-report.ts';
import { matchJudgements, SAME_TOLD_MS } from '../judgements/match-judgements.ts';
import type { Judgement } from '../store/judgement-store.ts';

/**
 * Refuses what a rider tells of a ride where it cannot stand in it: there is no analysis yet, the moment lies outside the ride, one of the
 * kind stands near it already, or nobody knows on which cog the chain slipped. What was told under the same key may be told anew.
 *
 * @param report the engine's own; undefined while there is none
 */
export function refuseTold(eventKey: string, report: RideReport | undefined, judgements: readonly Judgement[]): void {
  if (!report)
    throw new RequestError(
      409,
      'not-analysed',
      'This ride is not worked through yet. Tell of it once its timeline stands.',
    );
  const { kind, ms } = keyMoment(eventKey);
  const sinceStartMs = ms - Date.parse(report.start);
  const endIso = new Date(Date.parse(report.start) + report.durationS * 1000).toISOString();
  if (sinceStartMs < 0 || sinceStartMs > report.durationS * 1000)
    throw new RequestError(
      409,
      'outside-ride',
      `That moment is not in this ride, which lasts from 0:00:00 to ${sinceStart(report.start, endIso)}. Choose one within it.`,
    );
  const name = kind === 'drop' ? 'lost chain' : 'skip';
  const near = standing(kind, report, judgements, eventKey).find(
    ({ at }) => Math.abs(Date.parse(at) - ms) <= SAME_TOLD_MS[kind],
  );
  if (near !== undefined)
    throw new RequestError(
      409,
      'told-already',
      `A ${name} stands at ${sinceStart(report.start, near.at)} of this ride already; two within ${SAME_TOLD_MS[kind] / 1000} s are taken for one. ${near.answered ? 'Take that one back' : 'Say of that one whether it happened'}, or choose another moment.`,
    );
  if (kind === 'skip' && cogAt(report, new Date(ms).toISOString()) === null)
    throw new RequestError(
      409,
      'cog-not-known',
      'This ride shows no cog at all, so nobody can tell on which one the chain skipped, and it would count for nothing.',
    );
}

/** A lost chain or a skip that counts. */
interface Standing {
  readonly at: string;
  /** Whether the rider said something of it: then it can be taken back, else it is still asked about. */
  readonly answered: boolean;
}

/** The lost chains, or the skips, of a ride that count, but for what was told or rejected under `eventKey`. */
function standing(kind: string, report: RideReport, judgements: readonly Judgement[], eventKey: string): Standing[] {
  const before = judgements.find((one) => one.eventKey === eventKey);
  const replaced = before && before.verdict !== 'confirmed' ? ({ ...before, verdict: 'rejected' } as const) : null;
  const others = judgements.filter((one) => one !== before || !replaced);
  const judged = matchJudgements(eventKeys(report), replaced ? [replaced, ...others] : others);
  const { chainDrops, skips } = judgeRideReport(report, judged);
  return (kind === 'drop' ? chainDrops : skips).map(({ at }) => ({
    at,
    answered: judged.has(keyOf(kind as EventKind, at)),
  }));
}
