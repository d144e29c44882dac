import { momentIso } from './moment-iso.ts';
import type { RideReport } from './ride-report-schema.ts';

/**
 * The chain's own cog over the ride as runs: one entry where it changes, null teeth where it is not known or drive is lost.
 *
 * @param timeS seconds since the start, one for each entry of `cog`
 * @param cog cassette indices, -1 = not known
 */
export function gearRuns(
  startMs: number,
  timeS: Float64Array,
  cog: Int8Array,
  cassette: readonly number[],
): RideReport['gears'] {
  const runs: RideReport['gears'] = [];
  for (let i = 0; i < cog.length; i++) {
    if (i > 0 && cog[i] === cog[i - 1]) continue;
    runs.push({ at: momentIso(startMs, timeS[i]), teeth: cassette[cog[i]] ?? null });
  }
  return runs;
}
