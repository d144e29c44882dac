import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { readMeta } from '../../server/store/meta-store.ts';
import { WorkerPool } from '../../server/work/worker-pool.ts';
import { pool, testServer } from './test-server.ts';

it('sample bikes that a stop breaks off are gone on with at the next start', async () => {
  const stopped = new WorkerPool(1, { longestMs: 1000, memoryMb: 128 }, 0);
  await stopped.close();
  const samples = fileURLToPath(new URL('../../sample-rides', import.meta.url));
  const server = await testServer({ samples, threads: { intake: stopped, analysis: pool } });
  await server.samplesLoaded;
  expect(readMeta(server.services.sql, 'samples-loaded')).toBeUndefined();
  await server.close();
});
