import { median, quantileSorted } from 'd3-array';
import type { BikeRide } from '../bike-ride.ts';
import type { DecodedGears } from '../decoding/decode-gears.ts';
import type { AfterRest, GearModel } from '../gear-model.ts';
import { AFTER_REST_S, restsOf } from '../samples/since-rest.ts';

/** The cog is read so long after the rest, when the sensors have settled, s. */
const SETTLED_S = 9;
/** No command so shortly before the legs came to rest, nor while they rested: the chain moves only as they turn, and may still be on its way. */
const QUIET_BEFORE_S = 3;
/** Records further apart do not show that the legs turned on. */
const NEXT_WITHIN_S = 2.5;
/** Rests of which so many tell as much as none beforehand. */
const RESTS_FOR_HALF = 12;
/** The trace is to be so sure of the cog. */
const SURE = 0.95;
/** The normal distribution below one standard deviation. Some start softly and others at once: half the distance between the two such points sees both. */
const ONE_DEVIATION = 0.841;

/**
 * By how much the log development is shown off its gear's in each second after a rest of the legs, and how much more it scatters than in steady pedalling:
 * sensors that average show the start late. From the rests about which nothing was commanded, against the cog on which the chain turned out to lie.
 *
 * @returns one for each second from the rest on
 */
export function noiseAfterRest(ride: BikeRide, decoded: DecodedGears, model: GearModel): AfterRest[] {
  const { timeS } = ride.log;
  const offs: { off: number; usual: number }[][] = Array.from({ length: AFTER_REST_S }, () => []);
  const { beganS } = restsOf(timeS, ride.samples);
  for (let start = 0; start < timeS.length; start++) {
    if (Number.isNaN(beganS[start])) continue;
    const settled = settledAt(ride, start);
    const level = settled === null ? Number.NaN : quietLevel(ride, decoded, model, beganS[start], settled);
    for (let t = start; t < (settled ?? start); t++) {
      const off = decoded.logDevelopment[t] - level;
      if (!Number.isNaN(off)) offs[Math.floor(timeS[t] - timeS[start])]?.push({ off, usual: decoded.deviation[t] });
    }
  }
  return offs.map((second) => {
    if (second.length === 0) return { shift: 0, deviation: 0 };
    const told = second.length / (second.length + RESTS_FOR_HALF);
    const middle = median(second, ({ off }) => off) as number;
    const sorted = second.map(({ off }) => off).sort((a, b) => a - b);
    const scatter =
      (quantileSorted(sorted, ONE_DEVIATION) as number) / 2 - (quantileSorted(sorted, 1 - ONE_DEVIATION) as number) / 2;
    const usual = median(second, ({ usual }) => usual) as number;
    return {
      shift: told * middle,
      deviation: Math.sqrt(told * Math.max(0, scatter ** 2 - usual ** 2) + told * (1 - told) * middle ** 2),
    };
  });
}

/** Record of the pedalling from `start` on by which the sensors have settled; null where the legs rest again before, or nobody knows. */
function settledAt({ log: { timeS }, samples }: BikeRide, start: number): number | null {
  for (let t = start; t < timeS.length && samples.pedalling[t]; t++) {
    if (t > start && timeS[t] - timeS[t - 1] > NEXT_WITHIN_S) return null;
    if (timeS[t] >= timeS[start] + SETTLED_S) return t;
  }
  return null;
}

/** Log development of the gear on which the chain lay from before the legs came to rest, at `restS`, to `settled`; NaN where it was to move meanwhile, or did not lie where it was commanded. */
function quietLevel(
  { commands }: BikeRide,
  { cog, ring, cogProbability }: DecodedGears,
  model: GearModel,
  restS: number,
  settled: number,
): number {
  const last = commands.latest[settled];
  const quiet = last >= 0 && commands.timeS[last] <= restS - QUIET_BEFORE_S;
  const known = ring[settled] >= 0 && cogProbability[settled] >= SURE;
  if (!quiet || !known || cog[settled] !== commands.cog[last]) return Number.NaN;
  return model.logDevelopment[ring[settled] * model.cogs + cog[settled]];
}
