import { open } from 'node:fs/promises';
import { pipeline } from 'node:stream/promises';
import { promisify } from 'node:util';
import { gunzip } from 'node:zlib';
import { z } from 'zod';
import { unpackedName } from '../../src/ride-log/unpack-gzip.ts';
import { defineRoute, sent } from '../http/define-route.ts';
import { notFound, RequestError } from '../http/request-error.ts';
import type { Services } from '../services.ts';
import { jobShape } from '../shapes/bike-shapes.ts';
import { rideColumnsShape, rideDetailShape, rideSummaryShape } from '../shapes/ride-shapes.ts';
import { findColumns } from '../store/analysis-store.ts';
import { touchBike } from '../store/bike-store.ts';
import { idSchema } from '../store/new-id.ts';
import { deleteRide, findRide, listRides, placeRide, type StoredRide, totalRides } from '../store/ride-store.ts';
import { fileMissing } from '../work/work-fault.ts';
import { needBike } from './bikes.ts';
import { jobId } from './job-id.ts';
import { rideDetail, rideSummaries } from './ride-answer.ts';

const params = z.object({ id: idSchema });

/** The ride, or the answer that there is none. */
export function needRide({ sql }: Pick<Services, 'sql'>, id: string): StoredRide {
  const ride = findRide(sql, id);
  if (!ride) throw notFound('ride');
  return ride;
}

/** Listing, reading, moving and removing rides, with their columns and files. */
export const rideRoutes = [
  defineRoute({
    method: 'get',
    path: '/rides',
    summary: 'Rides, the newest first, of one bike or of all',
    query: z.strictObject({
      bike: idSchema.optional(),
      limit: z
        .string()
        .regex(/^\d{1,4}$/, 'must be a number up to 9999')
        .default('500')
        .describe('At most so many, the newest'),
    }),
    answers: {
      200: {
        description: 'The rides',
        schema: z.object({
          rides: z.array(rideSummaryShape),
          total: z.number().int().min(0).describe('How many there are in all'),
        }),
      },
    },
    handle: ({ query }, services) => {
      const rides = listRides(services.sql, { bikeId: query.bike, limit: Number(query.limit) });
      const total = totalRides(services.sql, query.bike);
      return { status: 200, json: { rides: rideSummaries(rides, services), total } };
    },
  }),
  defineRoute({
    method: 'get',
    path: '/rides/:id',
    summary: 'One ride with every event found in it',
    params,
    answers: { 200: { description: 'The ride', schema: rideDetailShape } },
    handle: ({ params: { id } }, services) => ({ status: 200, json: rideDetail(needRide(services, id), services) }),
  }),
  defineRoute({
    method: 'put',
    path: '/rides/:id',
    summary: 'Move a ride to another bike',
    params,
    body: z.strictObject({ bikeId: idSchema }),
    answers: { 202: { description: 'Moved; both reports follow', schema: jobShape } },
    handle: ({ params: { id }, body: { bikeId } }, services) => {
      const { sql, queue } = services;
      const { from, revision } = sql.transaction(() => {
        const ride = needRide(services, id);
        needBike(services, bikeId);
        placeRide(sql, id, bikeId);
        if (ride.bikeId) touchBike(sql, ride.bikeId);
        return { from: ride.bikeId, revision: touchBike(sql, bikeId) };
      });
      if (from) queue.tellBike(from);
      queue.tellBike(bikeId);
      return { status: 202, json: { jobId: jobId(bikeId, revision) } };
    },
  }),
  defineRoute({
    method: 'delete',
    path: '/rides/:id',
    summary: 'Remove a ride, its file and its judgements',
    params,
    answers: { 204: { description: 'Removed' } },
    handle: ({ params: { id } }, services) => {
      const { sql, raw, hub, queue } = services;
      const ride = sql.transaction(() => {
        const found = needRide(services, id);
        deleteRide(sql, id);
        if (found.bikeId) touchBike(sql, found.bikeId);
        return found;
      });
      raw.remove(ride.keptSha256);
      hub.tell({ type: 'gone', rideId: id });
      if (ride.bikeId) queue.tellBike(ride.bikeId);
      return { status: 204 };
    },
  }),
  defineRoute({
    method: 'get',
    path: '/rides/:id/columns',
    summary: 'Columns over time for the timeline',
    params,
    answers: { 200: { description: 'The columns; gzip where the client takes it', schema: rideColumnsShape } },
    handle: async ({ params: { id }, request, response }, services) => {
      needRide(services, id);
      const columns = findColumns(services.sql, id);
      if (!columns) throw new RequestError(409, 'not-analysed', 'This ride has no analysis yet.');
      response.set({
        'content-type': 'application/json; charset=utf-8',
        'cache-control': 'no-store',
        vary: 'accept-encoding',
      });
      if (request.acceptsEncodings('gzip')) response.set('content-encoding', 'gzip').end(columns);
      else response.end(await promisify(gunzip)(columns));
      return sent;
    },
  }),
  defineRoute({
    method: 'get',
    path: '/rides/:id/file',
    summary: 'The ride file as it is kept, without positions unless they were kept on purpose',
    params,
    answers: { 200: { description: 'The file', contentType: 'application/octet-stream' } },
    handle: async ({ params: { id }, response }, { raw, ...services }) => {
      const ride = needRide(services, id);
      // opened and not looked for first: the file may be removed between the two
      const kept = await open(raw.path(ride.keptSha256)).catch((error: NodeJS.ErrnoException) => {
        if (error.code !== 'ENOENT') throw error;
        const { code, message } = fileMissing(ride.file);
        throw new RequestError(404, code, message);
      });
      response
        .attachment(unpackedName(ride.file))
        .set({ 'content-type': 'application/octet-stream', 'cache-control': 'no-store' });
      await pipeline(kept.createReadStream(), response);
      return sent;
    },
  }),
];
