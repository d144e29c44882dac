import type { Bike } from '../drivetrain/bike.ts';
import type { GearRecords, RideLog } from '../ride-log/ride-log.ts';

/**
 * The gear records in terms of the bike: where the derailleurs were told to go. Cog and ring are indices into
 * cassette and chainrings (0 = smallest), -1 = not known.
 */
export interface GearCommands {
  /** One entry a gear record, seconds since the ride's start, rising. */
  readonly timeS: Float64Array;
  readonly cog: Int8Array;
  readonly ring: Int8Array;
  /** For each record of the ride, the index of the last gear record at or before it; -1 before the first. */
  readonly latest: Int32Array;
}

/** Reads the gear records against a bike: positions are sure and go first, teeth are what someone configured. */
export function gearCommands(log: RideLog, bike: Bike): GearCommands {
  const records = log.gearRecords;
  const count = records.timeS.length;
  const cogOf = columnReader(records.rearPosition, records.rearTeeth, bike.cassette, true);
  const ringOf = columnReader(records.frontPosition, records.frontTeeth, bike.chainrings, false);
  const cog = new Int8Array(count);
  const ring = new Int8Array(count);
  let lastCog = -1;
  let lastRing = bike.chainrings.length === 1 ? 0 : -1;
  for (let i = 0; i < count; i++) {
    lastCog = orElse(cogOf(i), lastCog);
    if (bike.chainrings.length > 1) lastRing = orElse(ringOf(i), lastRing);
    cog[i] = lastCog;
    ring[i] = lastRing;
  }
  return { timeS: records.timeS, cog, ring, latest: latestIndex(log.timeS, records) };
}

const orElse = (value: number, fallback: number): number => (value >= 0 ? value : fallback);

/** Position counts from the innermost: the largest cog, but the smallest ring. */
function columnReader(
  position: Uint8Array,
  teeth: Uint8Array,
  sizes: readonly number[],
  fromLargest: boolean,
): (i: number) => number {
  const count = sizes.length;
  const byRank = ranksWhenComplete(teeth, sizes);
  return (i) => {
    const p = position[i];
    if (p >= 1 && p <= count) return fromLargest ? count - p : p - 1;
    const t = teeth[i];
    if (t === 0) return -1;
    const exact = sizes.indexOf(t);
    if (exact >= 0) return exact;
    return byRank?.get(t) ?? nearest(sizes, t);
  };
}

/** Where as many tooth counts were recorded as the bike has, the n-th recorded is the n-th of the bike, whatever the numbers say. */
function ranksWhenComplete(teeth: Uint8Array, sizes: readonly number[]): Map<number, number> | null {
  const seen = [...new Set(teeth)].filter((t) => t > 0).sort((a, b) => a - b);
  if (seen.length !== sizes.length || seen.some((t) => sizes.includes(t))) return null;
  return new Map(seen.map((t, rank) => [t, rank]));
}

function nearest(sizes: readonly number[], teeth: number): number {
  let best = 0;
  for (let i = 1; i < sizes.length; i++)
    if (Math.abs(Math.log(sizes[i] / teeth)) < Math.abs(Math.log(sizes[best] / teeth))) best = i;
  return best;
}

function latestIndex(timeS: Float64Array, records: GearRecords): Int32Array {
  const latest = new Int32Array(timeS.length);
  let next = 0;
  for (let i = 0; i < timeS.length; i++) {
    while (next < records.timeS.length && records.timeS[next] <= timeS[i]) next++;
    latest[i] = next - 1;
  }
  return latest;
}
