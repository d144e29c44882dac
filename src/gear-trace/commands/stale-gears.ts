import { bisector } from 'd3-array';
import { type GearCommands, latestIndex } from './gear-commands.ts';

/** A stretch of a ride, s since its start; `toS` excluded. */
export interface StaleStretch {
  readonly fromS: number;
  readonly toS: number;
}

const byTime = bisector((timeS: number) => timeS).right;

/**
 * The commands with the gear unknown in stretches in which records are missing, from their start to the record that ends them.
 *
 * @param recordsS times of the ride's records, s since its start
 */
export function withoutStaleGears(
  commands: GearCommands,
  stretches: readonly StaleStretch[],
  recordsS: Float64Array,
): GearCommands {
  const { timeS, cog, ring } = commands;
  const isStale = (atS: number): boolean => stretches.some(({ fromS, toS }) => atS >= fromS && atS < toS);
  const atS = Float64Array.from([...timeS, ...stretches.map(({ fromS }) => fromS)]).sort();
  const before = (s: number): number => byTime(timeS, s) - 1;
  // on one ring there is nothing to lose
  const unknownRing = ring.every((one) => one === 0) ? 0 : -1;
  return {
    timeS: atS,
    cog: Int8Array.from(atS, (s) => (isStale(s) ? -1 : cog[before(s)])),
    ring: Int8Array.from(atS, (s) => (isStale(s) ? unknownRing : ring[before(s)])),
    latest: latestIndex(recordsS, atS),
  };
}
