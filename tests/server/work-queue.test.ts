import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { RawStore } from '../../server/raw/raw-store.ts';
import { insertBike } from '../../server/store/bike-store.ts';
import { openDatabase } from '../../server/store/open-database.ts';
import type { Sql } from '../../server/store/sql.ts';
import { ChangeHub } from '../../server/work/change-hub.ts';
import { WorkQueue } from '../../server/work/work-queue.ts';
import type { WorkerPool } from '../../server/work/worker-pool.ts';
import { hutBike } from './made-rides.ts';
import { registerRide } from './register-ride.ts';
import { temporaryFolder } from './test-server.ts';

let folder: ReturnType<typeof temporaryFolder>;
let sql: Sql;
beforeEach(async () => {
  folder = temporaryFolder();
  sql = await openDatabase(join(folder.path, 'cogwright.sqlite'), { backup: folder.path });
  registerRide(sql, insertBike(sql, hutBike, 'given'));
});
afterEach(() => {
  vi.useRealTimers();
  sql.database.close();
  folder.remove();
});

const turns = async (): Promise<void> => {
  for (let i = 0; i < 5; i++) await new Promise((resolve) => setImmediate(resolve));
};

it('goes on after a rest also when the clock was set back meanwhile', async () => {
  vi.useFakeTimers({ toFake: ['Date', 'setTimeout', 'performance'] });
  const run = vi.fn(async () => {
    throw Object.assign(new Error('no room'), { code: 'ENOSPC' });
  });
  const queue = new WorkQueue(
    {
      sql,
      raw: { has: () => true, path: (sha256: string) => sha256 } as unknown as RawStore,
      database: '',
      pool: { run } as unknown as WorkerPool,
      hub: new ChangeHub(),
      log: pino({ enabled: false }),
    },
    1,
  );
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
