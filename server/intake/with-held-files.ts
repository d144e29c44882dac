import { rename, rm } from 'node:fs/promises';
import type { Request } from 'express';
import { type ReceivedFile, type ReceiveLimits, type RefusedFile, receiveFiles } from './receive-files.ts';

/**
 * Holds the files of a request until all are in, has them worked with together, and removes them, also where the request
 * breaks off. Nothing of them is kept.
 *
 * @returns what `work` made of them
 * @throws what `receiveFiles` or `work` throws
 */
export async function withHeldFiles<Result>(
  request: Request,
  folder: string,
  limits: ReceiveLimits,
  work: (files: readonly (ReceivedFile | RefusedFile)[]) => Promise<Result>,
): Promise<Result> {
  const held: string[] = [];
  try {
    const files = await receiveFiles(request, folder, limits, async ({ name, path }) => {
      const place = `${path}.held`;
      await rename(path, place);
      held.push(place);
      return { name, path: place };
    });
    return await work(files);
  } finally {
    await Promise.all(held.map((place) => rm(place, { force: true })));
  }
}
