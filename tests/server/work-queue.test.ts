import { pino } from 'pino';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { engineVersion } from '../../server/engine.ts';
import type { RawStore } from '../../server/raw/raw-store.ts';
import { findBike, insertBike, replaceBike } from '../../server/store/bike-store.ts';
import { findRide, listRides } from '../../server/store/ride-store.ts';
import type { Sql } from '../../server/store/sql.ts';
import type { RideFault } from '../../server/store/work-store.ts';
import { bikeBacklogs, failRide, nextRides, requeueStale } from '../../server/store/work-store.ts';
import { analyseNextRide } from '../../server/work/analyse-next-ride.ts';
import { ChangeHub } from '../../server/work/change-hub.ts';
import type { WorkBench } from '../../server/work/work-bench.ts';
import { pendingOf, WorkQueue } from '../../server/work/work-queue.ts';
import type { WorkerPool } from '../../server/work/worker-pool.ts';
import { hutBike } from './made-rides.ts';
import { registerRide } from './register-ride.ts';
import { testStore } from './test-store.ts';

let store: Awaited<ReturnType<typeof testStore>>;
let sql: Sql;
beforeEach(async () => {
  store = await testStore();
  sql = store.sql;
  registerRide(sql, insertBike(sql, hutBike, 'given'));
});
afterEach(() => {
  vi.useRealTimers();
  store.remove();
});

const turns = async (): Promise<void> => {
  for (let i = 0; i < 5; i++) await new Promise((resolve) => setImmediate(resolve));
};

/** A bench whose pool does this in place of any work. */
const bench = (run: () => Promise<unknown>): WorkBench => ({
  sql,
  raw: { has: () => true, path: (sha256: string) => sha256 } as unknown as RawStore,
  database: '',
  pool: { run } as unknown as WorkerPool,
  hub: new ChangeHub(),
  log: pino({ enabled: false }),
});

it('goes on after a rest also when the clock was set back meanwhile', async () => {
  vi.useFakeTimers({ toFake: ['Date', 'setTimeout', 'performance'] });
  const run = vi.fn(async () => {
    throw Object.assign(new Error('no room'), { code: 'ENOSPC' });
  });
  const queue = new WorkQueue(bench(run), 1);
  queue.start();
  await turns();
  expect(run).toHaveBeenCalledTimes(1);
  queue.wake();
  await turns();
  expect(run).toHaveBeenCalledTimes(1);
  vi.setSystemTime(Date.now() - 86_400_000);
  vi.advanceTimersByTime(10_000);
  await turns();
  expect(run).toHaveBeenCalledTimes(2);
  await queue.close();
});

it('gives no ride up because its bike is changed time and again while it is analysed', async () => {
  const [{ id, bikeId }] = listRides(sql);
  for (let i = 0; i < 12; i++) {
    const run = async (): Promise<{ fault: RideFault; stages: [] }> => {
      const stored = findBike(sql, bikeId as string);
      if (stored) replaceBike(sql, stored, { ...stored.bike, rolloutMm: 2000 + i });
      return { fault: { code: 'bad', message: 'bad' }, stages: [] };
    };
    const [ride] = nextRides(sql, new Set(), 1);
    await analyseNextRide(bench(run), ride);
  }
  expect(findRide(sql, id)).toMatchObject({ status: 'queued', attempts: 0 });
});

/** The first thing that a queue with one lane takes up. */
async function firstTask(): Promise<unknown> {
  const run = vi.fn((_task: string) => new Promise<never>(() => {}));
  new WorkQueue(bench(run as never), 1).start();
  await turns();
  return run.mock.calls[0]?.[0];
}

it('works out no report of a bike before any of its rides is analysed', async () => {
  expect(bikeBacklogs(sql)).toMatchObject([{ rides: 1, queued: 1, again: 0 }]);
  expect(await firstTask()).toBe('analyse');
});

it('works out a report on the way while first rides still come, but none while rides are analysed again', async () => {
  const [{ id, bikeId }] = listRides(sql);
  const bike = bikeId as string;
  registerRide(sql, bike);
  failRide(sql, id, { bikeId: bike, drivetrainVersion: 1, engineVersion }, { code: 'bad', message: 'bad' });
  expect(bikeBacklogs(sql, bike)).toMatchObject([{ rides: 2, queued: 1, again: 0 }]);
  expect(await firstTask()).toBe('conclude');
  const stored = findBike(sql, bike);
  if (stored) replaceBike(sql, stored, { ...stored.bike, rolloutMm: 2000 });
  requeueStale(sql, engineVersion);
  expect(bikeBacklogs(sql, bike)).toMatchObject([{ rides: 2, queued: 2, again: 1 }]);
  expect(await firstTask()).toBe('analyse');
});

it('a bike that never had a ride waits for nothing, one whose rides are gone for its report', () => {
  const empty = { bikeId: 'b', revision: 2, reportRevision: null, failure: null, queued: 0, again: 0, rides: 0 };
  expect(pendingOf(empty)).toBe(0);
  expect(pendingOf({ ...empty, reportRevision: 1 })).toBe(1);
  expect(pendingOf({ ...empty, reportRevision: 2 })).toBe(0);
  expect(pendingOf({ ...empty, rides: 3, queued: 2 })).toBe(3);
});
