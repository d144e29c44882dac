import { pino } from 'pino';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { engineVersion } from '../../server/engine.ts';
import type { RawStore } from '../../server/raw/raw-store.ts';
import { findBike, insertBike, replaceBike, touchBike } from '../../server/store/bike-store.ts';
import { deleteRide, findRide, listRides } from '../../server/store/ride-store.ts';
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

const fault = { code: 'bad', message: 'bad' };

/** What a queue with one lane does until nothing is left, time standing still; `after`: called after each piece of work. */
async function allWork(after: (queue: WorkQueue, task: string, bikeId: string) => void = () => {}): Promise<string[]> {
  vi.useFakeTimers({ toFake: ['Date', 'setTimeout', 'performance'] });
  const tasks: string[] = [];
  const run = async (task: string, { bikeId }: { bikeId: string }) => {
    tasks.push(task);
    after(queue, task, bikeId);
    const revision = findBike(sql, bikeId)?.revision;
    return task === 'analyse'
      ? { fault, stages: [] }
      : { revision, report: '{}', summary: '{}', detail: '{}', stages: [] };
  };
  const queue = new WorkQueue(bench(run as never), 1);
  queue.start();
  for (let before = -1; before < tasks.length; ) {
    before = tasks.length;
    await turns();
  }
  await queue.close();
  return tasks;
}

const reports = (tasks: readonly string[]): number => tasks.filter((task) => task === 'conclude').length;

it('works out one report of each bike of a fleet with a few rides each, also where adjustments come among them', async () => {
  for (const { id } of listRides(sql)) deleteRide(sql, id);
  const bikes = Array.from({ length: 20 }, () => insertBike(sql, hutBike, 'given'));
  for (const bike of bikes) for (let i = 0; i < 3; i++) registerRide(sql, bike);
  let done = 0;
  const tasks = await allWork((queue, task) => {
    if (task !== 'analyse' || done++ % 6 !== 1) return;
    const bike = bikes[Math.floor(done / 3)];
    touchBike(sql, bike);
    queue.tellBike(bike);
  });
  expect(tasks).toHaveLength(80);
  expect(reports(tasks)).toBe(20);
});

it('works out one more where rides come after the first, and one on the way where many are left', async () => {
  const [{ bikeId }] = listRides(sql);
  let added = false;
  const more = await allWork((queue, task) => {
    if (task !== 'conclude' || added) return;
    added = true;
    for (let i = 0; i < 3; i++) registerRide(sql, bikeId);
    touchBike(sql, bikeId as string);
    queue.tellBike(bikeId as string);
  });
  expect(reports(more)).toBe(2);
  for (let i = 0; i < 12; i++) registerRide(sql, bikeId);
  expect(reports(await allWork())).toBe(2);
});

it('does not let a report wait for a ride that waits itself behind those of other bikes', async () => {
  const [{ id, bikeId }] = listRides(sql);
  failRide(sql, id, { bikeId: bikeId as string, drivetrainVersion: 1, engineVersion }, fault);
  const other = insertBike(sql, hutBike, 'given');
  for (let i = 0; i < 3; i++) registerRide(sql, other);
  registerRide(sql, bikeId);
  expect(await allWork()).toEqual(['conclude', ...Array(3).fill('analyse'), 'conclude', 'analyse', 'conclude']);
});

it('does not work out a report while the last ride of its bike is in another lane', async () => {
  for (const { id } of listRides(sql)) deleteRide(sql, id);
  const bike = insertBike(sql, hutBike, 'given');
  for (let i = 0; i < 2; i++) registerRide(sql, bike);
  vi.useFakeTimers({ toFake: ['Date', 'setTimeout', 'performance'] });
  let end = (): void => {};
  const lastRide = new Promise<void>((resolve) => {
    end = resolve;
  });
  const tasks: string[] = [];
  const run = async (task: string) => {
    if (tasks.push(task) === 2) await lastRide;
    return task === 'analyse'
      ? { fault, stages: [] }
      : { revision: findBike(sql, bike)?.revision, report: '{}', summary: '{}', detail: '{}', stages: [] };
  };
  const queue = new WorkQueue(bench(run as never), 2);
  queue.start();
  for (let i = 0; i < 5; i++) await turns();
  expect(tasks).toEqual(['analyse', 'analyse']);
  end();
  for (let i = 0; i < 5; i++) await turns();
  expect(tasks).toEqual(['analyse', 'analyse', 'conclude']);
  await queue.close();
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
  for (let i = 0; i < 6; i++) registerRide(sql, bike);
  failRide(sql, id, { bikeId: bike, drivetrainVersion: 1, engineVersion }, fault);
  expect(bikeBacklogs(sql, bike)).toMatchObject([{ rides: 7, queued: 6, again: 0 }]);
  expect(await firstTask()).toBe('conclude');
  const stored = findBike(sql, bike);
  if (stored) replaceBike(sql, stored, { ...stored.bike, rolloutMm: 2000 });
  requeueStale(sql, engineVersion);
  expect(bikeBacklogs(sql, bike)).toMatchObject([{ rides: 7, queued: 7, again: 1 }]);
  expect(await firstTask()).toBe('analyse');
  const [one] = listRides(sql).filter((ride) => ride.id !== id);
  failRide(sql, one.id, { bikeId: bike, drivetrainVersion: 2, engineVersion }, fault);
  expect(bikeBacklogs(sql, bike)).toMatchObject([{ rides: 7, queued: 6, again: 1 }]);
  expect(await firstTask()).toBe('analyse');
});

it('works out a report in one lane at a time, whatever comes in meanwhile', async () => {
  const [{ id, bikeId }] = listRides(sql);
  failRide(sql, id, { bikeId: bikeId as string, drivetrainVersion: 1, engineVersion }, fault);
  const run = vi.fn((_task: string) => new Promise<never>(() => {}));
  const queue = new WorkQueue(bench(run as never), 2);
  queue.start();
  await turns();
  touchBike(sql, bikeId as string);
  queue.tellBike(bikeId as string);
  await turns();
  expect(run.mock.calls.map(([task]) => task)).toEqual(['conclude']);
});

it('a bike that never had a ride waits for nothing, one whose rides are gone for its report', () => {
  const empty = { bikeId: 'b', revision: 2, reportRevision: null, failure: null, queued: 0, again: 0, rides: 0 };
  expect(pendingOf(empty)).toBe(0);
  expect(pendingOf({ ...empty, reportRevision: 1 })).toBe(1);
  expect(pendingOf({ ...empty, reportRevision: 2 })).toBe(0);
  expect(pendingOf({ ...empty, rides: 3, queued: 2 })).toBe(3);
});
