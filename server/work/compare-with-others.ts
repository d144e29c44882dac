import { type ComparableRide, listAboutItsTime, listEnclosing } from '../store/part-store.ts';
import type { CompareAnswer } from './tasks.ts';
import type { WorkBench } from './work-bench.ts';
import { WorkFailed } from './worker-pool.ts';

interface ComparedRide {
  readonly id: string;
  readonly file: string;
  readonly keptSha256: string;
}

/**
 * Finds the rides of the same bike that a ride is a cut copy of, and its own cut copies. Of two rides the one that is
 * analysed later finds the other, so no pair is missed whichever comes first.
 *
 * @returns null where that could not be found out, which keeps nothing of the ride back
 * @throws WorkFailed `stopped`
 */
export const compareWithOthers = (bench: WorkBench, ride: ComparedRide): Promise<CompareAnswer | null> =>
  compare(bench, ride, listAboutItsTime(bench.sql, ride.id));

/**
 * The bike that a ride without one belongs to by its records: that of a ride which holds them all, or which is a
 * stretch of them. Null where there is none or that could not be found out.
 *
 * @throws WorkFailed `stopped`
 */
export async function bikeOfCopies(bench: WorkBench, ride: ComparedRide): Promise<string | null> {
  const others = listEnclosing(bench.sql, ride.id);
  const found = await compare(bench, ride, others);
  const [copyId] = [...(found?.partOf ?? []), ...(found?.wholeOf ?? [])];
  return others.find(({ id }) => id === copyId)?.bikeId ?? null;
}

async function compare(
  { raw, pool, log }: WorkBench,
  ride: ComparedRide,
  others: readonly ComparableRide[],
): Promise<CompareAnswer | null> {
  if (others.length === 0) return { compared: [], partOf: [], wholeOf: [] };
  const kept = ({ file, keptSha256 }: ComparedRide) => ({ file, path: raw.path(keptSha256) });
  try {
    return await pool.run('compare', {
      ride: kept(ride),
      others: others.map((other) => ({ id: other.id, ...kept(other) })),
    });
  } catch (error) {
    if (!(error instanceof WorkFailed) || error.code === 'stopped') throw error;
    log.error({ job: 'compare', rideId: ride.id, code: error.code, err: error.cause }, 'job failed');
    return null;
  }
}
