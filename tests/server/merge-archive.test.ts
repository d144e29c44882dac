import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { ArchivedBike, ArchivedRide } from '../../server/archive/archive-shapes.ts';
import { mergeArchive } from '../../server/archive/merge-archive.ts';
import type { OpenArchive } from '../../server/archive/read-archive.ts';
import { RawStore } from '../../server/raw/raw-store.ts';
import type { Services } from '../../server/services.ts';
import { listRides } from '../../server/store/ride-store.ts';
import type { IntakeAnswer, IntakeTask } from '../../server/work/tasks.ts';
import { hutBike } from './made-rides.ts';
import { testStore } from './test-store.ts';

const bikeId = '1'.repeat(16);
const bike: ArchivedBike = {
  ...{ id: bikeId, bike: hutBike, source: 'given', sample: false, notes: [], certainty: null },
  ...{ workshopMark: null, adjustments: [] },
};
const rideOf = (digit: string, on: string | null): ArchivedRide => ({
  ...{ bikeId: on, file: `${digit}.csv`, sha256: digit.repeat(64), archivedSha256: digit.repeat(64), judgements: [] },
});
const full = (): never => {
  throw Object.assign(new Error('no space'), { code: 'ENOSPC' });
};

let store: Awaited<ReturnType<typeof testStore>>;
/** What the queue was told, in order. */
let told: string[];
beforeEach(async () => {
  store = await testStore();
  told = [];
  for (const name of ['incoming', 'raw']) mkdirSync(join(store.folder, name));
});
afterEach(() => store.remove());

/** Merges an archive of which each ride is unpacked so. */
function merge(rides: ArchivedRide[], unpack: (ride: ArchivedRide) => void) {
  const run = async (_name: string, { keptPath, file }: IntakeTask): Promise<IntakeAnswer> => {
    writeFileSync(keptPath, 'kept');
    const address = file[0].repeat(64);
    return {
      fault: null,
      ride: {
        ...{ sha256: address, keptSha256: address, bytes: 9, keptBytes: 4, format: 'csv', positions: 'none' },
        ...{ startMs: 1000, durationS: 60, recordedTeeth: { rear: [], front: [] }, warnings: [] },
      },
    };
  };
  const queue = {
    openUpload: () => told.push('open'),
    closeUpload: () => told.push('close'),
    tellBike: (id: string) => told.push(id),
  };
  const services = {
    ...{
      sql: store.sql,
      raw: new RawStore(join(store.folder, 'raw')),
      folder: { incoming: join(store.folder, 'incoming') },
    },
    ...{ intake: { run }, queue, limits: { fileBytes: 1000 }, log: pino({ enabled: false }) },
  } as unknown as Services;
  const archive = {
    ...{ bikes: [bike], rides, close: () => {} },
    unpack: async (ride: ArchivedRide, path: string) => {
      unpack(ride);
      told.push(`unpacked ${ride.file}`);
      writeFileSync(path, 'sent');
    },
  } satisfies OpenArchive;
  return mergeArchive(services, archive);
}

describe('an archive that is merged', () => {
  it('has what was taken in worked through where the disk takes no more of it', async () => {
    const broken = merge([rideOf('a', bikeId), rideOf('b', bikeId)], ({ file }) => file === 'b.csv' && full());
    await expect(broken).rejects.toThrow('no space');
    expect(listRides(store.sql).map(({ file }) => file)).toEqual(['a.csv']);
    // the queue is told of the bike, and looks for work as the upload is closed
    expect(told.slice(told.indexOf('unpacked a.csv') + 1)).toEqual(['close', bikeId]);
  });

  it('has its rides without a bike looked at together, once all of them are in', async () => {
    const merged = await merge([rideOf('a', null), rideOf('b', null)], () => {});
    expect(merged.rides.added).toBe(2);
    expect(told).toEqual(['open', 'unpacked a.csv', 'unpacked b.csv', 'close', bikeId]);
  });
});
