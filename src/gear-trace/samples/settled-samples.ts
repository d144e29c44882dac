import type { RideLog } from '../../ride-log/ride-log.ts';
import type { PedallingSamples } from './pedalling-samples.ts';

/** Records taken in settled pedalling, grouped by the commanded gear: `byGear[ring * cogs + cog]` holds record indices. */
export type SettledSamples = readonly Int32Array[];

/** The gear in force: times of the gear records, what each asked for (-1 = not known), and the last record before each of the ride's. */
export interface AskedGears {
  readonly timeS: Float64Array;
  readonly cog: Int8Array;
  readonly ring: Int8Array;
  readonly latest: Int32Array;
}

/** So long after a gear record and before the next the chain may be on its way. */
const AFTER_COMMAND_S = 4.5;
/** A record may be written a row late: the one a second before it shows the new cog already. */
const BEFORE_COMMAND_S = 2;
/** With less power or a slower cadence the legs may not drive. */
const MIN_POWER_W = 30;
const MIN_CADENCE_RPM = 40;

/**
 * Records at least 4.5 s after a gear record and 2 s before the next, well above walking pace and, where power is known,
 * with some: there the chain is on the commanded cog unless something is wrong.
 * Gears whose ring is not known are left out.
 */
export function settledSamples(
  log: RideLog,
  samples: PedallingSamples,
  commands: AskedGears,
  { cogs, rings }: { readonly cogs: number; readonly rings: number },
): SettledSamples {
  const byGear: number[][] = Array.from({ length: cogs * rings }, () => []);
  for (let i = 0; i < log.timeS.length; i++) {
    const record = commands.latest[i];
    if (record < 0 || !samples.usable[i] || log.cadenceRpm[i] < MIN_CADENCE_RPM || log.powerW[i] < MIN_POWER_W)
      continue;
    if (log.timeS[i] - commands.timeS[record] < AFTER_COMMAND_S) continue;
    if (commands.timeS[record + 1] - log.timeS[i] < BEFORE_COMMAND_S) continue;
    const ring = commands.ring[record];
    if (ring >= 0 && commands.cog[record] >= 0) byGear[ring * cogs + commands.cog[record]].push(i);
  }
  return byGear.map((indices) => Int32Array.from(indices));
}
