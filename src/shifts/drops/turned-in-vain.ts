import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';

/** A bike that is braked while its sensor holds the last reading looks the same for so long. */
const HELD_S = 3;
/** The legs outrun the gear by more than this, log share: more than noise of the sensors. */
const OUTRUN = 0.06;
/** A longer gap between two records tells of no more than this. */
const LONGEST_RECORD_S = 2;

/**
 * For how long after a shift the legs turned on faster than any gear in question allows, s: with the chain on they cannot, since the wheel may
 * run ahead of the legs, but the legs never of the wheel.
 *
 * @param largest the largest cog in question, on whichever ring
 */
export function turnedInVainS(
  { timeS, speedMps, cadenceRpm }: RideLog,
  { model }: RideTrace,
  { largest, start, end }: { readonly largest: number; readonly start: number; readonly end: number },
): number {
  const lowest = Math.min(...(model?.logDevelopment.filter((_, gear) => gear % model.cogs === largest) ?? []));
  let inVainS = 0;
  for (let i = start + 1; i < end; i++) {
    const turns = cadenceRpm[i] > PEDALLING_RPM && timeS[i] - timeS[start] > HELD_S;
    if (turns && lowest - Math.log((speedMps[i] * 60) / cadenceRpm[i]) > OUTRUN)
      inVainS += Math.min(LONGEST_RECORD_S, timeS[i] - timeS[i - 1]);
  }
  return inVainS;
}
