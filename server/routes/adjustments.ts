import { z } from 'zod';
import { type Adjustment, adjustmentSchema } from '../../src/adjustments/adjustment.ts';
import { doubtfulAdjustment } from '../../src/adjustments/doubtful-adjustment.ts';
import { notYetLogged } from '../../src/adjustments/not-yet-logged.ts';
import { parseAdjustments } from '../../src/adjustments/parse-adjustments.ts';
import { doubtedAdjustments, refuseDoubts } from '../../src/adjustments/refuse-doubts.ts';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { defineRoute } from '../http/define-route.ts';
import { notFound, RequestError } from '../http/request-error.ts';
import type { Services } from '../services.ts';
import { jobShape, takenAdjustmentsShape, versionedAdjustmentShape } from '../shapes/bike-shapes.ts';
import {
  deleteAdjustment,
  findAdjustment,
  insertAdjustment,
  listAdjustments,
  updateAdjustment,
  withVersion,
} from '../store/adjustment-store.ts';
import { touchBike } from '../store/bike-store.ts';
import { idSchema } from '../store/new-id.ts';
import { versionOf } from '../store/version-of.ts';
import { needBike } from './bikes.ts';
import { refuseChangedMeanwhile, versionQuery } from './changed-meanwhile.ts';
import { jobId } from './job-id.ts';

const ofBike = z.object({ id: idSchema });
const ofOne = z.object({ id: idSchema, adjustmentId: idSchema });
const answer = z.intersection(versionedAdjustmentShape, jobShape);

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

/** The actuation that speaks against what is logged: that of a bike that was guessed gives way to it. */
function heldActuation(services: Services, bikeId: string): Bike['actuation'] | null {
  const { bike, source } = needBike(services, bikeId);
  return source === 'given' ? bike.actuation : null;
}

/** Refuses what can hardly be meant: the page and any other caller hear of it before it weighs on the verdict. */
function refuseDoubtful(services: Services, bikeId: string, body: Adjustment): void {
  const doubt = doubtfulAdjustment(body, heldActuation(services, bikeId), Date.now());
  if (doubt)
    throw new RequestError(400, 'invalid-request', `In the body, "${doubt.key}": ${doubt.message}.`, [
      { path: doubt.key, message: doubt.message },
    ]);
}

/** The adjustment that a change was made from, or the answer that it is gone, or another by now. */
function refuseUnlessAs({ sql }: Services, bikeId: string, id: string, version: string | undefined): void {
  const stored = findAdjustment(sql, bikeId, id);
  if (!stored) throw notFound('adjustment');
  refuseChangedMeanwhile('adjustment', version, versionOf(stored));
}

/** The adjustments of a file. As one that is logged by itself, none of it may be doubtful: nothing is taken in until all is mended. */
function adjustmentsIn(file: string, text: string, actuation: Bike['actuation'] | null): Adjustment[] {
  const adjustments = parseAdjustments(file, text);
  refuseDoubts(file, doubtedAdjustments(adjustments, actuation, Date.now()));
  return adjustments;
}

/** Adding, changing and removing a bike's adjustments. */
export const adjustmentRoutes = [
  defineRoute({
    method: 'post',
    path: '/bikes/:id/adjustments/file',
    summary: 'Log what stands in an adjustments file (CSV or JSON) and is not in the log yet; all of it or nothing',
    params: ofBike,
    body: z.strictObject({
      file: z.string().min(1).max(255).describe('Its name, for messages'),
      text: z.string().describe('What stands in it'),
    }),
    answers: { 200: { description: 'Logged; the report follows', schema: takenAdjustmentsShape } },
    handle: ({ params: { id }, body: { file, text } }, services) => {
      const adjustments = adjustmentsIn(file, text, heldActuation(services, id));
      const { result: added, ...job } = changeLog(services, id, () => {
        const fresh = notYetLogged(listAdjustments(services.sql, id), adjustments);
        for (const one of fresh) insertAdjustment(services.sql, id, one);
        return fresh.length;
      });
      return { status: 200, json: { added, known: adjustments.length - added, ...job } };
    },
  }),
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
      return { status: 201, json: { ...withVersion(result), ...job } };
    },
  }),
  defineRoute({
    method: 'put',
    path: '/bikes/:id/adjustments/:adjustmentId',
    summary: 'Correct an adjustment',
    params: ofOne,
    query: versionQuery,
    body: adjustmentSchema,
    answers: { 200: { description: 'Corrected; the report follows', schema: answer } },
    handle: ({ params: { id, adjustmentId }, query: { version }, body }, services) => {
      refuseDoubtful(services, id, body);
      const { result, ...job } = changeLog(services, id, () => {
        refuseUnlessAs(services, id, adjustmentId, version);
        updateAdjustment(services.sql, adjustmentId, body);
        return { id: adjustmentId, ...body };
      });
      return { status: 200, json: { ...withVersion(result), ...job } };
    },
  }),
  defineRoute({
    method: 'delete',
    path: '/bikes/:id/adjustments/:adjustmentId',
    summary: 'Remove an adjustment',
    params: ofOne,
    query: versionQuery,
    answers: { 202: { description: 'Removed; the report follows', schema: jobShape } },
    handle: ({ params: { id, adjustmentId }, query: { version } }, services) => {
      const { jobId } = changeLog(services, id, () => {
        refuseUnlessAs(services, id, adjustmentId, version);
        deleteAdjustment(services.sql, adjustmentId);
      });
      return { status: 202, json: { jobId } };
    },
  }),
];
