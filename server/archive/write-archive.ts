import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { ZipFile } from 'yazl';
import type { z } from 'zod';
import type { Services } from '../services.ts';
import { listAdjustments } from '../store/adjustment-store.ts';
import { listBikes } from '../store/bike-store.ts';
import { listJudgements } from '../store/judgement-store.ts';
import { findRide, listRides, type StoredRide } from '../store/ride-store.ts';
import { listWorkshopMarks } from '../store/workshop-mark-store.ts';
import {
  ARCHIVE_VERSION,
  type ArchivedBike,
  type ArchivedRide,
  archiveFormat,
  type manifestShape,
} from './archive-shapes.ts';

type WritingServices = Pick<Services, 'sql' | 'raw' | 'intake' | 'log'>;

/**
 * Everything people gave, as one zip stream: bikes, adjustments, judgements, ride files. Positions that were kept on
 * purpose are taken out on the way. Files are read one at a time as the zip is drawn; a ride that is removed meanwhile
 * is left out, and one whose file is missing is named in the manifest and the log. An error while reading destroys the
 * stream.
 */
export function writeArchive(services: WritingServices): Readable {
  const { sql, log } = services;
  const workshopMarks = listWorkshopMarks(sql);
  const bikes: ArchivedBike[] = listBikes(sql).map(({ id, bike, source, sample, notes, certainty }) => ({
    id,
    bike,
    source,
    sample,
    notes: [...notes],
    certainty,
    workshopMark: workshopMarks.get(id) ?? null,
    adjustments: listAdjustments(sql, id),
  }));
  const rides = listRides(sql).map((ride) => ({ ride, judgements: listJudgements(sql, ride.id) }));
  const written: ArchivedRide[] = [];
  const missing: z.output<typeof manifestShape>['missing'] = [];
  const zip = new ZipFile();
  const output = zip.outputStream as Readable;
  zip.on('error', (error) => output.destroy(error));
  zip.addBuffer(json(bikes), 'bikes.json');
  for (const { ride, judgements } of rides) {
    const { keptSha256, bikeId, file, sha256 } = ride;
    addLazily(zip, `raw/${sha256}`, async () => {
      const bytes = await placeless(ride, services);
      if (!bytes && !findRide(sql, ride.id)) return new Uint8Array();
      if (!bytes) {
        missing.push({ file, sha256 });
        log.error({ rideId: ride.id }, 'the file of a ride is missing, and so it is in the archive');
      }
      written.push({ bikeId, file, sha256, archivedSha256: bytes ? sha256Of(bytes) : keptSha256, judgements });
      return bytes ?? new Uint8Array();
    });
  }
  const madeAt = new Date().toISOString();
  addLazily(zip, 'rides.json', async () => json(written));
  addLazily(zip, 'manifest.json', async () =>
    json({ format: archiveFormat, version: ARCHIVE_VERSION, madeAt, missing }),
  );
  zip.end();
  return output;
}

const json = (value: unknown): Buffer => Buffer.from(JSON.stringify(value, null, 1));
const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

function addLazily(zip: ZipFile, name: string, make: () => Promise<Uint8Array>): void {
  zip.addReadStreamLazy(name, { mode: 0o100644 }, (give) => {
    make().then(
      (bytes) => give(null, Readable.from([bytes], { objectMode: false })),
      (error) => give(error, Readable.from([])),
    );
  });
}

/** The ride's bytes; null where its file is not there. An error that comes from a worker does not tell that by its code. */
async function placeless(
  { positions, file, keptSha256 }: StoredRide,
  { raw, intake }: WritingServices,
): Promise<Uint8Array | null> {
  const path = raw.path(keptSha256);
  try {
    if (positions === 'kept') return await intake.run('placeless', { path, file });
    return await readFile(path);
  } catch (error) {
    if (raw.has(keptSha256)) throw error;
    return null;
  }
}
