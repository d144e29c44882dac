import { z } from 'zod';

/** A job is a bike's report becoming up to date with one of its revisions, so its id outlives the server. */
export const jobId = (bikeId: string, revision: number): string => `${bikeId}-${revision}`;

/** See `jobId`. */
export const jobIdSchema = z.string().regex(/^[0-9a-f]{16}-\d{1,12}$/, 'must be the id of a job');

/** The bike and the revision of a checked job id. */
export function jobParts(id: string): { bikeId: string; revision: number } {
  const [bikeId, revision] = id.split('-');
  return { bikeId, revision: Number(revision) };
}
