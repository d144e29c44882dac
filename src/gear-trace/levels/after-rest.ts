import { median } from 'd3-array';
import { DEVIATIONS_PER_MAD } from '../../numeric/median-deviation.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import type { GearCommands } from '../commands/gear-commands.ts';
import type { DecodedGears } from '../decoding/decode-gears.ts';
import type { AfterRest, GearModel } from '../gear-model.ts';
import type { PedallingSamples } from '../samples/pedalling-samples.ts';
import { AFTER_REST_S, sinceRest } from '../samples/since-rest.ts';

/** The cog is read so long after the rest, when the sensors have settled, s. */
const SETTLED_S = 9;
/** No command so shortly before the legs start again: the chain may be on its way. */
const QUIET_BEFORE_S = 3;
/** Rests of which so many tell as much as none beforehand. */
const RESTS_FOR_HALF = 12;
/** The trace is to be so sure of the cog. */
const SURE = 0.95;

/** A ride with what it shows of the legs and of the commands. */
interface RideWithCommands {
  readonly log: RideLog;
  readonly samples: PedallingSamples;
  readonly commands: GearCommands;
}

/**
 * By how much more the log development scatters in each second after a rest of the legs than in steady pedalling: sensors that average
 * show the start late. From the rests after which nothing was commanded, against the cog on which the chain turned out to lie.
 *
 * @returns one for each second from the rest on
 */
export function noiseAfterRest(ride: RideWithCommands, decoded: DecodedGears, model: GearModel): AfterRest[] {
  const { timeS } = ride.log;
  const offs: { off: number; usual: number }[][] = Array.from({ length: AFTER_REST_S }, () => []);
  const since = sinceRest(timeS, ride.samples);
  for (let start = 0; start < timeS.length; start++) {
    if (since[start] !== 0) continue;
    const settled = settledAt(ride, start);
    const level = settled === null ? Number.NaN : quietLevel(ride, decoded, model, start, settled);
    for (let t = start; t < (settled ?? start); t++) {
      const off = decoded.logDevelopment[t] - level;
      if (!Number.isNaN(off)) offs[Math.round(timeS[t] - timeS[start])]?.push({ off, usual: decoded.deviation[t] });
    }
  }
  return offs.map((second) => {
    if (second.length === 0) return { shift: 0, deviation: 0 };
    const told = second.length / (second.length + RESTS_FOR_HALF);
    const middle = median(second, ({ off }) => off) as number;
    const scatter = DEVIATIONS_PER_MAD * (median(second, ({ off }) => Math.abs(off - middle)) as number);
    const usual = median(second, ({ usual }) => usual) as number;
    return {
      shift: told * middle,
      deviation: Math.sqrt(told * Math.max(0, scatter ** 2 - usual ** 2) + told * (1 - told) * middle ** 2),
    };
  });
}

/** Record of the pedalling from `start` on by which the sensors have settled; null where the legs rest again before. */
function settledAt({ log: { timeS }, samples }: RideWithCommands, start: number): number | null {
  for (let t = start; t < timeS.length && samples.pedalling[t]; t++) if (timeS[t] >= timeS[start] + SETTLED_S) return t;
  return null;
}

/** Log development of the gear on which the chain lay from before `start` to `settled`; NaN where it was to move meanwhile, or did not lie where it was commanded. */
function quietLevel(
  { log: { timeS }, commands }: RideWithCommands,
  { cog, ring, cogProbability }: DecodedGears,
  model: GearModel,
  start: number,
  settled: number,
): number {
  const last = commands.latest[settled];
  const quiet = last >= 0 && commands.timeS[last] <= timeS[start] - QUIET_BEFORE_S;
  const known = ring[settled] >= 0 && cogProbability[settled] >= SURE;
  if (!quiet || !known || cog[settled] !== commands.cog[last]) return Number.NaN;
  return model.logDevelopment[ring[settled] * model.cogs + cog[settled]];
}
