import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { ZipFile } from 'yazl';
import type { Services } from '../services.ts';
import { listAdjustments } from '../store/adjustment-store.ts';
import { listBikes } from '../store/bike-store.ts';
import { listJudgements } from '../store/judgement-store.ts';
import { listRides, type StoredRide } from '../store/ride-store.ts';
import type { WorkerPool } from '../work/worker-pool.ts';
import { type ArchivedBike, type ArchivedRide, archiveFormat, archiveVersion } from './archive-shapes.ts';

type WritingServices = Pick<Services, 'sql' | 'raw' | 'intake'>;

/**
 * Everything people gave, as one zip stream: bikes, adjustments, judgements, ride files. Positions that were kept on
 * purpose are taken out on the way. Files are read one at a time as the zip is drawn; a ride that is removed meanwhile
 * is left out. An error while reading destroys the stream.
 */
export function writeArchive({ sql, raw, intake }: WritingServices): Readable {
  const bikes: ArchivedBike[] = listBikes(sql).map(({ id, bike, source, sample }) => ({
    id,
    bike,
    source,
    sample,
    adjustments: listAdjustments(sql, id),
  }));
  const rides = listRides(sql).map((ride) => ({ ride, judgements: listJudgements(sql, ride.id) }));
  const written: ArchivedRide[] = [];
  const zip = new ZipFile();
  const output = zip.outputStream as Readable;
  zip.on('error', (error) => output.destroy(error));
  const manifest = { format: archiveFormat, version: archiveVersion, madeAt: new Date().toISOString() };
  zip.addBuffer(json(manifest), 'manifest.json');
  zip.addBuffer(json(bikes), 'bikes.json');
  for (const { ride, judgements } of rides) {
    const { keptSha256, bikeId, file, sha256 } = ride;
    addLazily(zip, `raw/${sha256}`, async () => {
      const bytes = await placeless(ride, raw.path(keptSha256), intake);
      if (!bytes) return new Uint8Array();
      written.push({ bikeId, file, sha256, archivedSha256: sha256Of(bytes), judgements });
      return bytes;
    });
  }
  addLazily(zip, 'rides.json', async () => json(written));
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

/** The ride's bytes; null where it was removed meanwhile. */
async function placeless(
  { positions, file }: StoredRide,
  path: string,
  intake: WorkerPool,
): Promise<Uint8Array | null> {
  try {
    if (positions === 'kept') return await intake.run('placeless', { path, file });
    return await readFile(path);
  } catch (error) {
    if ((error as { code?: string }).code === 'ENOENT') return null;
    throw error;
  }
}
