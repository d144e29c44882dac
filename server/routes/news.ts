import { z } from 'zod';
import { defineRoute, sent } from '../http/define-route.ts';
import { notFound } from '../http/request-error.ts';
import { findReport } from '../store/report-store.ts';
import { bikeBacklogs } from '../store/work-store.ts';
import { pendingOf } from '../work/work-queue.ts';
import { jobIdSchema, jobParts } from './job-id.ts';

/** What goes on in the background. */
export const newsRoutes = [
  defineRoute({
    method: 'get',
    path: '/jobs/:id',
    summary: 'Whether a bike’s report has caught up with a change',
    params: z.object({ id: jobIdSchema }),
    answers: {
      200: {
        description: 'The job',
        schema: z.object({
          id: z.string(),
          status: z.enum(['running', 'done', 'failed']),
          bikeId: z.string(),
          message: z.string().optional(),
        }),
      },
    },
    handle: ({ params: { id } }, { sql }) => {
      const { bikeId, revision } = jobParts(id);
      const backlog = bikeBacklogs(sql, bikeId)[0];
      if (!backlog || revision > backlog.revision) throw notFound('job');
      const behind = pendingOf(backlog) > 0 && (backlog.queued > 0 || (backlog.reportRevision ?? 0) < revision);
      const failed = !behind && findReport(sql, bikeId)?.failure;
      return {
        status: 200,
        json: {
          id,
          bikeId,
          status: behind ? 'running' : failed ? 'failed' : 'done',
          ...(failed && { message: 'The report could not be worked out because of a fault in this program.' }),
        },
      };
    },
  }),
  defineRoute({
    method: 'get',
    path: '/events',
    summary: 'Everything that changes, as server-sent events',
    answers: { 200: { description: 'Events `bike`, `ride` and `gone`', contentType: 'text/event-stream' } },
    handle: ({ request, response }, { hub, streams }) => {
      let stop = (): void => {};
      const stream = streams.open(request, response, () => stop());
      stop = hub.listen(({ type, ...change }) => stream.send(type, change));
      return sent;
    },
  }),
];
