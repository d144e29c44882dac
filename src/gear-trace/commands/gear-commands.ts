import type { Bike } from '../../drivetrain/bike.ts';
import type { GearRecords, RideLog } from '../../ride-log/ride-log.ts';
import type { PedallingSamples } from '../samples/pedalling-samples.ts';
import { placesOfTeeth } from './places-of-teeth.ts';
import { recordedCogs } from './recorded-cogs.ts';

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

/**
 * Reads the gear records against a bike: positions are sure and go first, teeth are what someone configured (`recordedCogs`). Positions count
 * from the innermost (the largest cog, but the smallest ring), rear ones from the smallest cog where the teeth beside them say so. A record that names no cog or no ring leaves it as it was; one that names teeth which cannot be leaves it unknown.
 */
export function gearCommands(log: RideLog, bike: Bike, samples: PedallingSamples): GearCommands {
  const records = log.gearRecords;
  const latest = latestIndex(log.timeS, records);
  const one = bike.chainrings.length === 1;
  const rings = placesOfTeeth(records.frontTeeth, bike.chainrings).places;
  const ring = one
    ? new Int8Array(records.timeS.length)
    : carriedOn(
        { positions: records.frontPosition, teeth: records.frontTeeth, lost: records.frontLost },
        rings,
        (p) => p - 1,
        bike.chainrings.length,
      );
  const cogs = recordedCogs(log, bike, samples, { timeS: records.timeS, ring, latest });
  const count = bike.cassette.length;
  const fromSmallest = countsFromSmallest(records);
  const cog = carriedOn(
    { positions: records.rearPosition, teeth: records.rearTeeth, lost: records.rearLost },
    cogs,
    (p) => (fromSmallest ? p - 1 : count - p),
    count,
  );
  return { timeS: records.timeS, cog, ring, latest };
}

/** Whether the rear positions rise with the teeth beside them: some recorders count from the smallest cog. */
function countsFromSmallest({ rearPosition, rearTeeth }: GearRecords): boolean {
  let rising = 0;
  for (let i = 1; i < rearTeeth.length; i++) {
    if (rearTeeth[i] === 0 || rearTeeth[i - 1] === 0 || rearPosition[i] === 0 || rearPosition[i - 1] === 0) continue;
    rising += Math.sign((rearTeeth[i] - rearTeeth[i - 1]) * (rearPosition[i] - rearPosition[i - 1]));
  }
  return rising > 0;
}

/** Place by record: from the position, counted as `placeAt` has it, else from the teeth. */
function carriedOn(
  { positions, teeth, lost }: { positions: Uint8Array; teeth: Uint8Array; lost?: Uint8Array },
  places: ReadonlyMap<number, number>,
  placeAt: (position: number) => number,
  count: number,
): Int8Array {
  let last = -1;
  return Int8Array.from(positions, (p, i) => {
    const unnamed = lost?.[i] ? -1 : last;
    last = p >= 1 && p <= count ? placeAt(p) : (places.get(teeth[i]) ?? unnamed);
    return last;
  });
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
