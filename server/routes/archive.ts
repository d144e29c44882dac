import { pipeline } from 'node:stream/promises';
import type { Request } from 'express';
import type { z } from 'zod';
import { mergeArchive } from '../archive/merge-archive.ts';
import { readArchive } from '../archive/read-archive.ts';
import { writeArchive } from '../archive/write-archive.ts';
import { defineRoute, sent } from '../http/define-route.ts';
import { RequestError } from '../http/request-error.ts';
import type { RefusedFile } from '../intake/receive-files.ts';
import { refuseIfStorage } from '../intake/refuse-if-storage.ts';
import { withHeldFiles } from '../intake/with-held-files.ts';
import type { Services } from '../services.ts';
import { mergedShape } from '../shapes/merged-shape.ts';

function archiveRefusal(file: RefusedFile, archiveBytes: number): RequestError {
  refuseIfStorage([file]);
  const most = Math.round(archiveBytes / 1e6);
  return new RequestError(
    413,
    file.code,
    `The archive is larger than ${most} MB. Unpack it, and add the ride files in it as rides.`,
  );
}

/** Merges the archive that a request holds. */
function importFrom(request: Request, services: Services): Promise<z.infer<typeof mergedShape>> {
  const { folder, limits } = services;
  const bounds = { files: 1, fileBytes: limits.archiveBytes, silentMs: limits.silentMs };
  return withHeldFiles(request, folder.incoming, bounds, async ([file]) => {
    if (!file) throw new RequestError(400, 'invalid-request', 'No archive was sent. Choose a file first.');
    if (!('path' in file)) throw archiveRefusal(file, limits.archiveBytes);
    const archive = await readArchive(file.path);
    try {
      return await mergeArchive(services, archive);
    } finally {
      archive.close();
    }
  });
}

/** Saving everything as one archive, and reading one in. */
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
        schema: mergedShape,
      },
    },
    handle: ({ request }, services) =>
      services.gate.through(async () => ({ status: 200, json: await importFrom(request, services) })),
  }),
];
