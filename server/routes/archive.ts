import { rename, rm } from 'node:fs/promises';
import { pipeline } from 'node:stream/promises';
import { z } from 'zod';
import { mergeArchive } from '../archive/merge-archive.ts';
import { readArchive } from '../archive/read-archive.ts';
import { writeArchive } from '../archive/write-archive.ts';
import { defineRoute, sent } from '../http/define-route.ts';
import { RequestError } from '../http/request-error.ts';
import { receiveFiles } from '../intake/receive-files.ts';

const count = z.number().int().min(0);
const known = z.object({ added: count, known: count });

export const archiveRoutes = [
  defineRoute({
    method: 'get',
    path: '/export',
    summary: 'Everything in one archive: bikes, adjustments, judgements and ride files without positions',
    answers: { 200: { description: 'The archive', contentType: 'application/zip' } },
    handle: async ({ response }, services) => {
      const day = new Date().toISOString().slice(0, 10);
      response
        .attachment(`cogwright-${day}.zip`)
        .set({ 'content-type': 'application/zip', 'cache-control': 'no-store' });
      await pipeline(writeArchive(services), response);
      return sent;
    },
  }),
  defineRoute({
    method: 'post',
    path: '/import',
    summary: 'Merge an archive into what is here, by content',
    files: true,
    answers: {
      200: {
        description: 'What was added and what was here already',
        schema: z.object({
          bikes: z.object({ added: count, merged: count }),
          rides: known.extend({ refused: z.array(z.object({ name: z.string(), message: z.string() })) }),
          adjustments: known,
          judgements: known,
        }),
      },
    },
    handle: ({ request }, services) =>
      services.gate.through(async () => {
        const { folder, limits } = services;
        const bounds = { files: 1, fileBytes: limits.archiveBytes, silentMs: limits.silentMs };
        const [file] = await receiveFiles(request, folder.incoming, bounds, async ({ path }) => {
          const held = `${path}.held`;
          await rename(path, held);
          return { held };
        });
        if (!file) throw new RequestError(400, 'invalid-request', 'No archive was sent.');
        if (!('held' in file)) throw new RequestError(file.code === 'too-large' ? 413 : 507, file.code, file.message);
        try {
          const archive = await readArchive(file.held);
          try {
            return { status: 200, json: await mergeArchive(services, archive) };
          } finally {
            archive.close();
          }
        } finally {
          await rm(file.held, { force: true });
        }
      }),
  }),
];
