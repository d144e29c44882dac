import { z } from 'zod';
import { defineRoute } from '../http/define-route.ts';
import { notFound } from '../http/request-error.ts';
import { eventKeys } from '../judgements/event-key.ts';
import { judgeRideReport } from '../judgements/judge-events.ts';
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
  verdictSchema,
} from '../store/judgement-store.ts';
import { idSchema } from '../store/new-id.ts';
import { jobId } from './job-id.ts';
import { needRide } from './rides.ts';

const params = z.object({ id: idSchema, eventKey: eventKeySchema });

/** Changes a ride's judgements; its counts follow at once, its bike's report a little later. */
function judge(
  services: Services,
  rideId: string,
  eventKey: string,
  change: (event: { readonly found: boolean; readonly judged: string | undefined }) => void,
): { jobId: string } {
  const { sql, queue } = services;
  const { bikeId, revision } = sql.transaction(() => {
    const ride = needRide(services, rideId);
    const report = findRideReport(sql, rideId);
    const keys = report ? eventKeys(report) : [];
    // An event may carry a judgement that was given it under the key of an earlier analysis.
    const judged = matchJudgements(keys, listJudgements(sql, rideId)).get(eventKey)?.eventKey;
    change({ found: keys.includes(eventKey), judged });
    if (report) {
      const after = judgeRideReport(report, matchJudgements(keys, listJudgements(sql, rideId)));
      updateCounts(sql, rideId, JSON.stringify(after.counts));
    }
    return { bikeId: ride.bikeId ?? '', revision: ride.bikeId ? touchBike(sql, ride.bikeId) : 0 };
  });
  queue.tellBike(bikeId);
  return { jobId: jobId(bikeId, revision) };
}

/** Giving and withdrawing a rider's judgement of an event. */
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
      const json = judge(services, id, eventKey, ({ found, judged }) => {
        if (!found) throw notFound('event');
        if (judged !== undefined) deleteJudgement(sql, id, judged);
        putJudgement(sql, id, { eventKey, ...body });
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
