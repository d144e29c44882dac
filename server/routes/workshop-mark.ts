import { z } from 'zod';
import { defineRoute } from '../http/define-route.ts';
import type { Services } from '../services.ts';
import { idSchema } from '../store/new-id.ts';
import { newWorkshopMarkSchema, workshopMarkSchema } from '../store/workshop-mark.ts';
import { deleteWorkshopMark, putWorkshopMark } from '../store/workshop-mark-store.ts';
import { needBike } from './bikes.ts';

const params = z.object({ id: idSchema });

/** Makes a change to a bike that is there, and tells every window of it. Its report does not hang on it. */
function change(services: Services, bikeId: string, make: () => void): void {
  services.sql.transaction(() => {
    needBike(services, bikeId);
    make();
  });
  services.queue.tellBike(bikeId);
}

/** Setting a bike aside for the workshop by hand, and putting it back in use. */
export const workshopMarkRoutes = [
  defineRoute({
    method: 'put',
    path: '/bikes/:id/workshop-mark',
    summary: 'Set a bike aside for the workshop, whatever its rides say, or change what is said of that',
    params,
    body: newWorkshopMarkSchema,
    answers: { 200: { description: 'Set aside', schema: workshopMarkSchema } },
    handle: ({ params: { id }, body }, services) => {
      change(services, id, () => putWorkshopMark(services.sql, id, body));
      return { status: 200, json: body };
    },
  }),
  defineRoute({
    method: 'delete',
    path: '/bikes/:id/workshop-mark',
    summary: 'Put a bike back in use; nothing happens where it is not set aside',
    params,
    answers: { 204: { description: 'Back in use' } },
    handle: ({ params: { id } }, services) => {
      change(services, id, () => deleteWorkshopMark(services.sql, id));
      return { status: 204 };
    },
  }),
];
