import { listOverlapping } from '../store/part-store.ts';
import type { WaitingRide } from '../store/work-store.ts';
import type { CompareAnswer } from './tasks.ts';
import type { WorkBench } from './work-bench.ts';
import { WorkFailed } from './worker-pool.ts';

/**
 * Finds the rides of the same bike that a ride is a cut copy of, and its own cut copies. Of two rides the one that is
 * analysed later finds the other, so no pair is missed whichever comes first.
 *
 * @returns null where that could not be found out, which keeps nothing of the ride back
 * @throws WorkFailed `stopped`
 */
export async function compareWithOthers(bench: WorkBench, ride: WaitingRide): Promise<CompareAnswer | null> {
  const { sql, raw, pool, log } = bench;
  const others = listOverlapping(sql, ride.id).map(({ id, file, keptSha256 }) => ({
    id,
    file,
    path: raw.path(keptSha256),
  }));
  if (others.length === 0) return { compared: [], partOf: [], wholeOf: [] };
  try {
    return await pool.run('compare', { ride: { file: ride.file, path: raw.path(ride.keptSha256) }, others });
  } catch (error) {
    if (!(error instanceof WorkFailed) || error.code === 'stopped') throw error;
    log.error({ job: 'compare', rideId: ride.id, code: error.code, err: error.cause }, 'job failed');
    return null;
  }
}
