import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { z } from 'zod';
import { CogwrightError } from '../../src/errors/cogwright-error.ts';
import { displayName } from '../intake/display-name.ts';
import { alreadyHere, type TakenRide, takeRide } from '../intake/take-ride.ts';
import { countsAfter } from '../judgements/counts-after.ts';
import type { Services } from '../services.ts';
import type { mergedShape } from '../shapes/merged-shape.ts';
import { findPackedReport, updateCounts } from '../store/analysis-store.ts';
import { touchBike } from '../store/bike-store.ts';
import { listJudgements, putJudgement } from '../store/judgement-store.ts';
import { newId } from '../store/new-id.ts';
import { findRide, findRideByContent } from '../store/ride-store.ts';
import { deleteUploadIfEmpty, insertUpload } from '../store/upload-store.ts';
import type { ArchivedRide } from './archive-shapes.ts';
import { mergeBikes } from './merge-bikes.ts';
import type { OpenArchive } from './read-archive.ts';

/**
 * Merges an archive by content: what is here already stays as it is, what is new is added. Each step is whole in
 * itself, so that an import that breaks off can be done again and goes on where it stopped; what it took in until then is worked through.
 */
export async function mergeArchive(services: Services, archive: OpenArchive): Promise<z.infer<typeof mergedShape>> {
  const { sql, queue } = services;
  const { bikeIds, bikes, adjustments } = sql.transaction(() => mergeBikes(sql, archive));
  try {
    return { bikes, adjustments, ...(await mergeRides(services, archive, bikeIds)) };
  } finally {
    for (const id of bikeIds.values()) queue.tellBike(id);
  }
}

type MergedRides = Pick<z.infer<typeof mergedShape>, 'rides' | 'judgements'>;

/** Adds the archive's rides and judgements that are not here yet. Rides without a bike are placed once all are in, as those of any upload. */
async function mergeRides(
  services: Services,
  archive: OpenArchive,
  bikeIds: ReadonlyMap<string, string>,
): Promise<MergedRides> {
  const { sql, queue } = services;
  const uploadId = sql.transaction(() => insertUpload(sql, 'auto'));
  const rides: MergedRides['rides'] = { added: 0, known: 0, refused: [] };
  const judgements = { added: 0, known: 0 };
  queue.openUpload(uploadId);
  try {
    for (const archived of archive.rides) {
      const bikeId = (archived.bikeId !== null && bikeIds.get(archived.bikeId)) || null;
      const taken = await takeArchived(services, archive, archived, { uploadId, bikeId });
      if (taken.status === 'refused') {
        rides.refused.push({ name: taken.name, message: taken.message });
        continue;
      }
      rides[taken.status === 'queued' ? 'added' : 'known']++;
      const judged = sql.transaction(() => mergeJudgements(services, taken.rideId, archived));
      judgements.added += judged.added;
      judgements.known += judged.known;
    }
    sql.transaction(() => deleteUploadIfEmpty(sql, uploadId));
    return { rides, judgements };
  } finally {
    queue.closeUpload(uploadId);
  }
}

async function takeArchived(
  services: Services,
  archive: OpenArchive,
  archived: ArchivedRide,
  to: { readonly uploadId: string; readonly bikeId: string | null },
): Promise<TakenRide> {
  const { sql, folder, limits } = services;
  const name = displayName(archived.file);
  const known = findRideByContent(sql, archived.sha256, archived.archivedSha256);
  if (known) return { name, status: 'duplicate', rideId: known.id, message: alreadyHere(sql, known.bikeId) };
  const path = join(folder.incoming, `${newId()}.part`);
  try {
    await archive.unpack(archived, path, limits.fileBytes * 2);
    return await takeRide(services, { name, path }, { ...to, keepPositions: false, firstSha256: archived.sha256 });
  } catch (error) {
    if (!(error instanceof CogwrightError)) throw error;
    return { name, status: 'refused', code: error.code, message: error.message };
  } finally {
    await rm(path, { force: true });
  }
}

/** What was judged here stays; what was judged there only is added. */
function mergeJudgements(
  { sql }: Services,
  rideId: string,
  { judgements }: ArchivedRide,
): { added: number; known: number } {
  const here = new Set(listJudgements(sql, rideId).map(({ eventKey }) => eventKey));
  const added = judgements.filter(({ eventKey }) => !here.has(eventKey));
  for (const judgement of added) putJudgement(sql, rideId, judgement);
  const before = added.length > 0 ? findPackedReport(sql, rideId) : undefined;
  if (before) updateCounts(sql, rideId, countsAfter(sql, rideId, before));
  const bikeId = findRide(sql, rideId)?.bikeId;
  if (added.length > 0 && bikeId) touchBike(sql, bikeId);
  return { added: added.length, known: judgements.length - added.length };
}
