import { expect, it } from 'vitest';
import { WorkerPool } from '../../server/work/worker-pool.ts';

it('counts the time of its work from when a thread has taken it up, not while the thread starts', async () => {
  const file = new URL('./slow-worker.mjs', import.meta.url).href;
  const pool = new WorkerPool(1, { longestMs: 2000, memoryMb: 128 }, 0, file);
  const conclude = (bikeId: string) => pool.run('conclude', { database: '', bikeId });
  const atOnce = ['one', 'two'].map(conclude);
  expect(await Promise.all(atOnce)).toEqual([null, null]);
  await expect(conclude('hangs')).rejects.toMatchObject({ name: 'WorkFailed', code: 'took-too-long' });
  // by a fresh thread, which starts as slowly
  expect(await conclude('three')).toBeNull();
  await pool.close();
});
