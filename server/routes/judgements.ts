import { z } from 'zod';
import { defineRoute } from '../http/define-route.ts';
import { notFound, RequestError } from '../http/request-error.ts';
import { eventKeys, keyMoment, eventKey as keyOf } from '../judgements/event-key.ts';
import { judgeRideReport } from '../judgements/judge-ride-report.ts';
import { matchJudgements } from '../judgements/match-judgements.ts';
import type { Services } from '../services.ts';
import { jobShape } from '../shapes/bike-shapes.ts';
import { findRideReport, updateCounts } from '../store/analysis-store.ts';
import { touchBike } from '../store/bike-store.ts';
import {
  deleteJudgement,
  eventKeySchema,
  listJudgements,
  putJudgement,
  toldKeySchema,
  toldSideSchema,
  verdictSchema,
} from '../store/judgement-store.ts';
import { idSchema } from '../store/new-id.ts';
import { jobId } from './job-id.ts';
import { refuseTold } from './refuse-told.ts';
import { needRide } from './rides.ts';

const params = z.object({ id: idSchema, eventKey: eventKeySchema });

/** An event as a change of its judgement finds it. `judged`: key of the judgement that it carries. */
interface FoundEvent {
  readonly found: boolean;
  /** A shift of which the analysis says nothing that could be confirmed or rejected. */
  readonly unjudged: boolean;
  readonly judged: string | undefined;
}

/** Changes a ride's judgements; its counts follow at once, its bike's report a little later. */
function judge(
  services: Services,
  rideId: string,
  eventKey: string,
  change: (event: FoundEvent) => void,
): { jobId: string } {
  const { sql, queue } = services;
  const { bikeId, revision } = sql.transaction(() => {
    const ride = needRide(services, rideId);
    const report = findRideReport(sql, rideId);
    const keys = report ? eventKeys(report) : [];
    // An event may carry a judgement that was given it under the key of an earlier analysis.
    const judged = matchJudgements(keys, listJudgements(sql, rideId)).get(eventKey)?.eventKey;
    const shift = report?.shifts.find(({ at }) => keyOf('shift', at) === eventKey);
    change({ found: keys.includes(eventKey), unjudged: shift?.outcome === 'unjudged', judged });
    if (report) {
      const after = judgeRideReport(report, matchJudgements(keys, listJudgements(sql, rideId)));
      updateCounts(sql, rideId, JSON.stringify(after.counts));
    }
    return { bikeId: ride.bikeId ?? '', revision: ride.bikeId ? touchBike(sql, ride.bikeId) : 0 };
  });
  queue.tellBike(bikeId);
  return { jobId: jobId(bikeId, revision) };
}

const notJudged = (): RequestError =>
  new RequestError(
    409,
    'not-judged',
    'This shift was not judged, so there is nothing to confirm or reject. Choose one that was.',
  );

const noSide = (): RequestError =>
  new RequestError(400, 'invalid-request', 'A skip has no side: leave `side` out, or tell of a lost chain (drop-...).');

/** Giving and withdrawing a rider's judgement of an event, and telling of one that the log does not show. */
export const judgementRoutes = [
  defineRoute({
    method: 'put',
    path: '/rides/:id/judgements/:eventKey',
    summary: 'Confirm or reject an event',
    params,
    body: z.strictObject({ verdict: verdictSchema, note: z.string().max(2000).default('') }),
    answers: { 202: { description: 'Kept; tallies and verdict follow', schema: jobShape } },
    handle: ({ params: { id, eventKey }, body }, services) => {
      const { sql } = services;
      const json = judge(services, id, eventKey, ({ found, unjudged, judged }) => {
        if (!found) throw notFound('event');
        if (unjudged) throw notJudged();
        if (judged !== undefined) deleteJudgement(sql, id, judged);
        putJudgement(sql, id, { eventKey, ...body });
      });
      return { status: 202, json };
    },
  }),
  defineRoute({
    method: 'put',
    path: '/rides/:id/told/:eventKey',
    summary: 'Tell of a lost chain or a skip that the log does not show; its judgement is taken back like any other',
    params: z.object({ id: idSchema, eventKey: toldKeySchema }),
    body: z.strictObject({
      side: toldSideSchema.optional().describe('Where a lost chain went, by default `unknown`; none of a skip'),
      note: z.string().max(2000).default(''),
    }),
    answers: { 202: { description: 'Kept; tallies and verdict follow', schema: jobShape } },
    handle: ({ params: { id, eventKey }, body: { side, note } }, services) => {
      const { sql } = services;
      const isDrop = keyMoment(eventKey).kind === 'drop';
      if (!isDrop && side !== undefined) throw noSide();
      const json = judge(services, id, eventKey, () => {
        refuseTold(eventKey, findRideReport(sql, id), listJudgements(sql, id));
        putJudgement(sql, id, { eventKey, verdict: 'told', note, ...(isDrop && { side: side ?? 'unknown' }) });
      });
      return { status: 202, json };
    },
  }),
  defineRoute({
    method: 'delete',
    path: '/rides/:id/judgements/:eventKey',
    summary: 'Take a judgement back',
    params,
    answers: { 202: { description: 'Taken back; tallies and verdict follow', schema: jobShape } },
    handle: ({ params: { id, eventKey } }, services) => {
      const json = judge(services, id, eventKey, ({ judged }) => {
        if (!deleteJudgement(services.sql, id, judged ?? eventKey)) throw notFound('judgement');
      });
      return { status: 202, json };
    },
  }),
];
