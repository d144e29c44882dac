import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Destination, type TakingServices, takeRide } from '../../server/intake/take-ride.ts';
import { RawStore } from '../../server/raw/raw-store.ts';
import { deleteBike, insertBike } from '../../server/store/bike-store.ts';
import { findRide, listRides } from '../../server/store/ride-store.ts';
import { insertUpload } from '../../server/store/upload-store.ts';
import type { IntakeAnswer, IntakenRide, IntakeTask } from '../../server/work/tasks.ts';
import { WorkFailed } from '../../server/work/worker-pool.ts';
import { hutBike } from './made-rides.ts';
import { testStore } from './test-store.ts';

const address = (digit: string): string => digit.repeat(64);
const read = (sha256: string, keptSha256: string): IntakenRide => ({
  ...{ sha256, keptSha256, bytes: 9, keptBytes: 4, format: 'csv', positions: 'dropped', startMs: 1000, durationS: 60 },
  ...{ recordedTeeth: { rear: [], front: [] }, warnings: [] },
});
const waiting: Destination = { uploadId: null, bikeId: null, keepPositions: false };

let store: Awaited<ReturnType<typeof testStore>>;
let raw: RawStore;
let incoming: string;
beforeEach(async () => {
  store = await testStore();
  incoming = join(store.folder, 'incoming');
  for (const name of ['incoming', 'raw']) mkdirSync(join(store.folder, name));
  raw = new RawStore(join(store.folder, 'raw'));
});
afterEach(() => store.remove());

/** Takes a file in that a thread reads so; what the thread does is `work`. */
function take(work: (task: IntakeTask) => IntakeAnswer, to: Destination = waiting) {
  const run = async (_name: string, task: IntakeTask): Promise<IntakeAnswer> => work(task);
  const services = { sql: store.sql, raw, folder: { incoming }, intake: { run }, log: pino({ enabled: false }) };
  return takeRide(services as unknown as TakingServices, { name: 'ride.csv', path: join(incoming, 'a.part') }, to);
}
/** A thread that reads a ride and writes what is kept of it. */
const reads =
  (ride: IntakenRide) =>
  ({ keptPath }: IntakeTask): IntakeAnswer => {
    writeFileSync(keptPath, 'kept');
    return { fault: null, ride };
  };
const keptFiles = (): string[] => raw.orphans(new Set());

describe('a file that is a ride', () => {
  it('is registered with what was read of it, and what is kept of it lies in the store', async () => {
    const uploadId = insertUpload(store.sql, 'auto');
    const taken = await take(reads(read(address('a'), address('b'))), { ...waiting, uploadId });
    expect(taken).toMatchObject({ name: 'ride.csv', status: 'queued' });
    expect(listRides(store.sql)).toMatchObject([
      { uploadId, bikeId: null, file: 'ride.csv', sha256: address('a'), keptSha256: address('b'), bytes: 9 },
    ]);
    expect([keptFiles(), readdirSync(incoming)]).toEqual([[address('b')], []]);
  });

  it.each([
    ['sent again', address('a'), address('c')],
    ['sent as it is kept', address('b'), address('d')],
    ['that leaves the same without its positions', address('e'), address('b')],
  ])('%s is told where it is, and nothing more of it is kept', async (_what, sent, kept) => {
    const bikeId = insertBike(store.sql, hutBike, 'given');
    await take(reads(read(address('a'), address('b'))), { ...waiting, bikeId });
    const [{ id: rideId }] = listRides(store.sql);
    const message = `It is already here, on ${hutBike.name}.`;
    expect(await take(reads(read(sent, kept)))).toEqual({ name: 'ride.csv', status: 'duplicate', rideId, message });
    expect([listRides(store.sql).length, keptFiles(), readdirSync(incoming)]).toEqual([1, [address('b')], []]);
  });

  it('is told to wait for its bike where it is here and has none', async () => {
    await take(reads(read(address('a'), address('b'))));
    expect(await take(reads(read(address('a'), address('b'))))).toMatchObject({
      status: 'duplicate',
      message: 'It is already here, and waits for its bike.',
    });
  });

  it('of an archive is known by the file as it was first sent', async () => {
    await take(reads(read(address('b'), address('b'))), { ...waiting, firstSha256: address('a') });
    expect(listRides(store.sql)[0].sha256).toBe(address('a'));
    expect(await take(reads(read(address('a'), address('c'))))).toMatchObject({ status: 'duplicate' });
  });
});

describe('a file that is not taken', () => {
  const refused = { name: 'ride.csv', status: 'refused' };

  it('says why, where it is no ride', async () => {
    const fault = { code: 'no-records', message: 'ride.csv: holds no ride records.' };
    expect(await take(() => ({ fault }))).toEqual({ ...refused, ...fault });
    expect(listRides(store.sql)).toEqual([]);
  });

  it('leaves nothing behind, where its bike was removed while it was read', async () => {
    const bikeId = insertBike(store.sql, hutBike, 'given');
    const removing = (task: IntakeTask): IntakeAnswer => {
      deleteBike(store.sql, bikeId);
      return reads(read(address('a'), address('b')))(task);
    };
    expect(await take(removing, { ...waiting, bikeId })).toMatchObject({ ...refused, code: 'not-found' });
    expect([listRides(store.sql), keptFiles(), readdirSync(incoming)]).toEqual([[], [], []]);
  });

  it('leaves nothing behind, where it cannot be registered', async () => {
    const uploadId = 'f'.repeat(16);
    await expect(take(reads(read(address('a'), address('b'))), { ...waiting, uploadId })).rejects.toThrow(
      /FOREIGN KEY/,
    );
    expect([listRides(store.sql), keptFiles(), readdirSync(incoming)]).toEqual([[], [], []]);
  });

  it.each(['took-too-long', 'out-of-memory', 'stopped', 'broke-off'] as const)(
    'is refused by name and half of it thrown away, where the reading %s',
    async (code) => {
      const failing = ({ keptPath }: IntakeTask): IntakeAnswer => {
        writeFileSync(keptPath, 'ke');
        throw new WorkFailed(code, null);
      };
      const taken = await take(failing);
      expect(taken).toMatchObject({ ...refused, code, message: expect.stringMatching(/^ride\.csv: /) });
      expect(readdirSync(incoming)).toEqual([]);
    },
  );

  it('is refused with the trouble of the disk, where that takes no more', async () => {
    const full = (): never => {
      throw Object.assign(new Error('no space'), { code: 'ENOSPC' });
    };
    expect(await take(full)).toMatchObject({ ...refused, code: 'disk-full' });
  });
});

it('is on the bike that it was sent to', async () => {
  const bikeId = insertBike(store.sql, hutBike, 'given');
  const taken = await take(reads(read(address('a'), address('b'))), { ...waiting, bikeId });
  expect(findRide(store.sql, 'rideId' in taken ? taken.rideId : '')).toMatchObject({ bikeId, status: 'queued' });
});
