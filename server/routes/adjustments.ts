import { z } from 'zod';
import { type Adjustment, adjustmentSchema } from '../../src/adjustments/adjustment.ts';
import { doubtfulAdjustment } from '../../src/adjustments/doubtful-adjustment.ts';
import { defineRoute } from '../http/define-route.ts';
import { notFound, RequestError } from '../http/request-error.ts';
import type { Services } from '../services.ts';
import { adjustmentLogShape, jobShape } from '../shapes/bike-shapes.ts';
import { deleteAdjustment, findAdjustment, insertAdjustment, updateAdjustment } from '../store/adjustment-store.ts';
import { touchBike } from '../store/bike-store.ts';
import { idSchema } from '../store/new-id.ts';
import { needBike } from './bikes.ts';
import { jobId } from './job-id.ts';

const ofBike = z.object({ id: idSchema });
const ofOne = z.object({ id: idSchema, adjustmentId: idSchema });
const answer = z.intersection(adjustmentLogShape, jobShape);

/** Makes a change to a bike's log and has its report follow; `change` and the new revision are one transaction. */
function changeLog<Result>(
  services: Services,
  bikeId: string,
  change: () => Result,
): { result: Result; jobId: string } {
  const changed = services.sql.transaction(() => {
    needBike(services, bikeId);
    return { result: change(), revision: touchBike(services.sql, bikeId) };
  });
  services.queue.tellBike(bikeId);
  return { result: changed.result, jobId: jobId(bikeId, changed.revision) };
}

/**
 * Refuses what can hardly be meant: the page and any other caller hear of it before it weighs on the verdict. The actuation of a bike that
 * was guessed is not held against what its rider logs: it gives way to that.
 */
function refuseDoubtful(services: Services, bikeId: string, body: Adjustment): void {
  const { bike, source } = needBike(services, bikeId);
  const doubt = doubtfulAdjustment(body, source === 'given' ? bike.actuation : null, Date.now());
  if (doubt)
    throw new RequestError(400, 'invalid-request', `In the body, "${doubt.key}": ${doubt.message}.`, [
      { path: doubt.key, message: doubt.message },
    ]);
}

const needAdjustment = ({ sql }: Services, bikeId: string, id: string): void => {
  if (!findAdjustment(sql, bikeId, id)) throw notFound('adjustment');
};

/** Adding, changing and removing a bike's adjustments. */
export const adjustmentRoutes = [
  defineRoute({
    method: 'post',
    path: '/bikes/:id/adjustments',
    summary: 'Log an adjustment',
    params: ofBike,
    body: adjustmentSchema,
    answers: { 201: { description: 'Logged; the report follows', schema: answer } },
    handle: ({ params: { id }, body }, services) => {
      refuseDoubtful(services, id, body);
      const { result, ...job } = changeLog(services, id, () => insertAdjustment(services.sql, id, body));
      return { status: 201, json: { ...result, ...job } };
    },
  }),
  defineRoute({
    method: 'put',
    path: '/bikes/:id/adjustments/:adjustmentId',
    summary: 'Correct an adjustment',
    params: ofOne,
    body: adjustmentSchema,
    answers: { 200: { description: 'Corrected; the report follows', schema: answer } },
    handle: ({ params: { id, adjustmentId }, body }, services) => {
      refuseDoubtful(services, id, body);
      const { result, ...job } = changeLog(services, id, () => {
        needAdjustment(services, id, adjustmentId);
        updateAdjustment(services.sql, adjustmentId, body);
        return { id: adjustmentId, ...body };
      });
      return { status: 200, json: { ...result, ...job } };
    },
  }),
  defineRoute({
    method: 'delete',
    path: '/bikes/:id/adjustments/:adjustmentId',
    summary: 'Remove an adjustment',
    params: ofOne,
    answers: { 202: { description: 'Removed; the report follows', schema: jobShape } },
    handle: ({ params: { id, adjustmentId } }, services) => {
      const { jobId } = changeLog(services, id, () => {
        needAdjustment(services, id, adjustmentId);
        deleteAdjustment(services.sql, adjustmentId);
      });
      return { status: 202, json: { jobId } };
    },
  }),
];
