import type { GearCommands } from '../commands/gear-commands.ts';
import type { GearStates } from './gear-states.ts';

/** Whether the gear records tell the cog and, in some part of the ride, not which of several rings the chain was to lie on. */
export const ringUnrecorded = ({ cog, ring }: Pick<GearCommands, 'cog' | 'ring'>, { rings }: GearStates): boolean =>
  rings > 1 && cog.some((one, i) => one >= 0 && ring[i] < 0);

/** The ring at each record as the gear records tell it, and where they do not, as `found`. */
export const recordedRing = ({ ring, latest }: Pick<GearCommands, 'ring' | 'latest'>, found: Int8Array): Int8Array =>
  found.map((one, t) => (latest[t] >= 0 && ring[latest[t]] >= 0 ? ring[latest[t]] : one));

/** The likelier-than-not ring at each record, -1 where there is none. `probability`: row-major, records x states. */
export function likeliestRing(probability: Float32Array, { rings, cogs, gears, count }: GearStates): Int8Array {
  const ofRing = new Float64Array(rings);
  return Int8Array.from({ length: probability.length / count }, (_, t) => {
    ofRing.fill(0);
    for (let state = 0; state < 2 * gears; state++)
      ofRing[Math.floor((state % gears) / cogs)] += probability[t * count + state];
    return ofRing.findIndex((share) => share > 0.5);
  });
}
