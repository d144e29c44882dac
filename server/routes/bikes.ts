import { z } from 'zod';
import { bikeSchema } from '../../src/drivetrain/bike.ts';
import { counted } from '../../src/numeric/counted.ts';
import { engineVersion } from '../engine.ts';
import { defineRoute } from '../http/define-route.ts';
import { notFound, RequestError } from '../http/request-error.ts';
import type { Services } from '../services.ts';
import { bikeDetailShape, bikeInShortShape, bikeSummaryShape, jobShape } from '../shapes/bike-shapes.ts';
import { deleteBike, findBike, insertBike, replaceBike, type StoredBike } from '../store/bike-store.ts';
import { idSchema } from '../store/new-id.ts';
import { deleteRide, listRides } from '../store/ride-store.ts';
import { versionOf } from '../store/version-of.ts';
import { requeueStale } from '../store/work-store.ts';
import { bikeDetailText, bikeSummaries } from './bike-answer.ts';
import { refuseChangedMeanwhile, versionQuery } from './changed-meanwhile.ts';
import { jobId } from './job-id.ts';

const params = z.object({ id: idSchema });
const yesNo = z.enum(['true', 'false']);

/** The bike, or the answer that there is none. */
export function needBike({ sql }: Pick<Services, 'sql'>, id: string): StoredBike {
  const stored = findBike(sql, id);
  if (!stored) throw notFound('bike');
  return stored;
}

/** Listing, making, reading, changing and removing bikes. */
export const bikeRoutes = [
  defineRoute({
    method: 'get',
    path: '/bikes',
    summary: 'Every bike with its state, the one that needs a mechanic most first',
    answers: { 200: { description: 'The bikes', schema: z.object({ bikes: z.array(bikeSummaryShape) }) } },
    handle: (_checked, services) => ({ status: 200, json: { bikes: bikeSummaries(services) } }),
  }),
  defineRoute({
    method: 'post',
    path: '/bikes',
    summary: 'Add a bike',
    body: bikeSchema,
    answers: { 201: { description: 'The new bike', schema: bikeDetailShape } },
    handle: ({ body }, services) => {
      const id = services.sql.transaction(() => insertBike(services.sql, body, 'given'));
      services.queue.tellBike(id);
      return { status: 201, jsonText: bikeDetailText(services, id) };
    },
  }),
  defineRoute({
    method: 'get',
    path: '/bikes/:id',
    summary: 'One bike with its report',
    params,
    query: z.strictObject({
      events: yesNo
        .default('true')
        .describe('Whether the rides of the report have their lists: shifts, ghostShifts, chainDrops, skips and gears'),
    }),
    answers: {
      200: {
        description: 'The bike; with events=false the lists of its rides are left out',
        schema: z.union([bikeDetailShape, bikeInShortShape]),
      },
    },
    handle: async ({ params: { id }, query }, services) => {
      if (query.events === 'false') return { status: 200, jsonText: bikeDetailText(services, id) };
      needBike(services, id);
      const whole = await services.intake.run('wholeReport', { database: services.folder.database, bikeId: id });
      // where none is worked out, one in short that was finished meanwhile must not stand in for it
      return { status: 200, jsonText: bikeDetailText(services, id, whole ? new TextDecoder().decode(whole) : 'null') };
    },
  }),
  defineRoute({
    method: 'put',
    path: '/bikes/:id',
    summary: 'Change a bike; another drivetrain has its rides analysed again',
    params,
    query: versionQuery,
    body: bikeSchema,
    answers: { 202: { description: 'Changed; the report follows', schema: jobShape } },
    handle: ({ params: { id }, query: { version }, body }, services) => {
      const { sql } = services;
      const revision = sql.transaction(() => {
        const stored = needBike(services, id);
        // a better guess is no one's word: what the rider writes down goes before it
        if (stored.source === 'given') refuseChangedMeanwhile('bike', version, versionOf(stored.bike));
        replaceBike(sql, stored, body);
        requeueStale(sql, engineVersion);
        return needBike(services, id).revision;
      });
      services.queue.tellBike(id);
      return { status: 202, json: { jobId: jobId(id, revision) } };
    },
  }),
  defineRoute({
    method: 'delete',
    path: '/bikes/:id',
    summary: 'Remove a bike with its adjustments and, if asked, its rides',
    params,
    query: z.strictObject({ withRides: yesNo.default('false').describe('Remove its rides and their files as well') }),
    answers: { 204: { description: 'Removed' } },
    handle: ({ params: { id }, query }, services) => {
      const { sql, raw, hub } = services;
      const rides = sql.transaction(() => {
        needBike(services, id);
        const its = listRides(sql, { bikeId: id });
        if (its.length > 0 && query.withRides === 'false')
          throw new RequestError(
            409,
            'bike-has-rides',
            `This bike has ${counted(its.length, 'ride')}. Move every ride to another bike first, or remove the bike with its rides.`,
          );
        for (const ride of its) deleteRide(sql, ride.id);
        deleteBike(sql, id);
        return its;
      });
      for (const ride of rides) {
        raw.remove(ride.keptSha256);
        hub.tell({ type: 'gone', rideId: ride.id });
      }
      hub.tell({ type: 'gone', bikeId: id });
      return { status: 204 };
    },
  }),
];
