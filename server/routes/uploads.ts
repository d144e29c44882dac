import { z } from 'zod';
import { counted } from '../../src/numeric/counted.ts';
import { defineRoute, sent } from '../http/define-route.ts';
import { notFound, RequestError } from '../http/request-error.ts';
import { type RefusedFile, receiveFiles } from '../intake/receive-files.ts';
import { refuseIfStorage } from '../intake/refuse-if-storage.ts';
import { type TakenRide, takeRide } from '../intake/take-ride.ts';
import type { Services } from '../services.ts';
import { uploadAnswerShape, type uploadProgressShape } from '../shapes/upload-shapes.ts';
import { idSchema } from '../store/new-id.ts';
import { listRides, type StoredRide } from '../store/ride-store.ts';
import { deleteUploadIfEmpty, hasUpload, insertUpload } from '../store/upload-store.ts';
import { needBike } from './bikes.ts';
import { rideStatus } from './ride-status.ts';

const query = z.strictObject({
  bike: z
    .union([z.enum(['auto', 'new']), idSchema], 'must be auto, new or an id of 16 hex digits')
    .default('auto')
    .describe(
      'The bike that was ridden: its id; `auto`: the bike that each ride fits, where it is the only one, else a new one; `new`: one new bike for all',
    ),
  positions: z
    .enum(['drop', 'keep'])
    .default('drop')
    .describe('`keep` leaves the positions in the kept file; they still never leave in an archive'),
});

const isRefused = (file: TakenRide | RefusedFile): file is RefusedFile =>
  !('status' in file) || file.status === 'refused';

/** How many files of an upload were kept before the disk took no more. */
const keptSentence = (kept: number): string =>
  kept === 0
    ? 'None of the files was kept.'
    : `${counted(kept, 'file of these was', 'files of these were')} kept before; send the others again.`;

/** Nobody was told the id of an upload that was refused. Where the disk does not take this either, the next start forgets it. */
function forgetIfEmpty({ sql, log }: Services, uploadId: string): void {
  try {
    sql.transaction(() => deleteUploadIfEmpty(sql, uploadId));
  } catch (error) {
    log.warn({ err: error }, 'an upload without rides could not be forgotten');
  }
}

/** Adding rides, and following how far they have come. */
export const uploadRoutes = [
  defineRoute({
    method: 'post',
    path: '/uploads',
    summary: 'Send ride files, one or many; what is acknowledged is safe, its analysis follows',
    query,
    files: true,
    answers: {
      202: {
        description: 'What became of each file, in the order sent',
        schema: uploadAnswerShape,
      },
    },
    handle: async ({ query: { bike, positions }, request }, services) => {
      const { sql, folder, limits, queue, gate } = services;
      const onBike = bike !== 'auto' && bike !== 'new';
      if (onBike) needBike(services, bike);
      return gate.through(async () => {
        const uploadId = sql.transaction(() => insertUpload(sql, onBike ? 'bike' : bike));
        const to = { uploadId, bikeId: onBike ? bike : null, keepPositions: positions === 'keep' };
        queue.openUpload(uploadId);
        try {
          const files = await receiveFiles(request, folder.incoming, limits, async (file) => {
            const taken = await takeRide(services, file, to);
            if (taken.status === 'queued') queue.wake();
            return taken;
          });
          if (files.length === 0)
            throw new RequestError(400, 'invalid-request', 'No ride file was sent. Choose a file first.');
          const refused = files.filter(isRefused);
          refuseIfStorage(refused, keptSentence(files.length - refused.length));
          return {
            status: 202,
            json: { uploadId, files: files.map((file) => ({ status: 'refused' as const, ...file })) },
          };
        } catch (error) {
          forgetIfEmpty(services, uploadId);
          throw error;
        } finally {
          queue.closeUpload(uploadId);
          if (onBike) queue.tellBike(bike);
        }
      });
    },
  }),
  defineRoute({
    method: 'get',
    path: '/uploads/:id/events',
    summary: 'Progress of an upload’s analyses, as server-sent events; ends when all are done',
    params: z.object({ id: idSchema }),
    answers: {
      200: { description: 'Events `progress` and, at the end, `finished`', contentType: 'text/event-stream' },
    },
    handle: ({ params: { id }, request, response }, services) => {
      if (!hasUpload(services.sql, id)) throw notFound('upload');
      followUpload(id, services, (onEnd) => services.streams.open(request, response, onEnd));
      return sent;
    },
  }),
];

const isOver = ({ status }: StoredRide): boolean => status === 'done' || status === 'failed';

/** Tells the present state of every ride of an upload, then each change, until all are over. */
function followUpload(
  uploadId: string,
  { sql, hub, queue }: Services,
  open: (onEnd: () => void) => { send(event: string, data: unknown): void; end(): void },
): void {
  let stop = (): void => {};
  const stream = open(() => stop());
  const told = new Map<string, string>();
  const tell = (): void => {
    const rides = listRides(sql, { uploadId });
    const done = rides.filter(isOver).length;
    for (const ride of rides) {
      const status = rideStatus(ride, queue);
      const state = `${status} ${ride.bikeId}`;
      if (told.get(ride.id) === state) continue;
      told.set(ride.id, state);
      const { id: rideId, file, bikeId, error } = ride;
      const progress: z.infer<typeof uploadProgressShape> = {
        file,
        rideId,
        bikeId,
        status,
        done,
        total: rides.length,
        ...(error && { message: error.message }),
      };
      stream.send('progress', progress);
    }
    if (done < rides.length) return;
    const failed = rides.filter(({ status }) => status === 'failed').length;
    const bikeIds = [...new Set(rides.map(({ bikeId }) => bikeId).filter((bikeId) => bikeId !== null))];
    stream.send('finished', { done: done - failed, failed, total: rides.length, bikeIds });
    stop();
    stream.end();
  };
  stop = hub.listen((change) => {
    if (change.type === 'gone' || (change.type === 'ride' && change.uploadId === uploadId)) tell();
  });
  tell();
}
