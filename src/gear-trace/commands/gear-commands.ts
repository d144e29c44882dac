import type { Bike } from '../../drivetrain/bike.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import type { PedallingSamples } from '../samples/pedalling-samples.ts';
import { placesOfTeeth } from './places-of-teeth.ts';
import { recordedCogs } from './recorded-cogs.ts';
import { placeOf, type RecordedPart, recordedGears } from './recorded-gears.ts';

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
 * Reads the gear records against a bike: positions are sure and go first, teeth are what someone configured (`recordedCogs`).
 * A record that names no cog or no ring leaves it as it was; one that names teeth which cannot be leaves it unknown.
 */
export function gearCommands(log: RideLog, bike: Bike, samples: PedallingSamples): GearCommands {
  const { timeS } = log.gearRecords;
  const latest = latestIndex(log.timeS, timeS);
  const { rear, front } = recordedGears(log.gearRecords);
  const { chainrings, cassette } = bike;
  const ring =
    chainrings.length === 1
      ? new Int8Array(timeS.length)
      : carriedOn(front, placesOfTeeth(front.sizes, chainrings).places, chainrings.length);
  const cogs = recordedCogs(log, bike, samples, { timeS, ring, latest });
  return { timeS, cog: carriedOn(rear, cogs, cassette.length), ring, latest };
}

/** Place by record: from the position, else from the teeth. */
function carriedOn(part: RecordedPart, places: ReadonlyMap<number, number>, count: number): Int8Array {
  let last = -1;
  return Int8Array.from(part.teeth, (teeth, i) => {
    const unnamed = part.lost?.[i] ? -1 : last;
    const byPosition = placeOf(part, i, count);
    last = byPosition >= 0 ? byPosition : (places.get(teeth) ?? unnamed);
    return last;
  });
}

/** For each record the index of the last gear record at or before it; -1 before the first. */
export function latestIndex(timeS: Float64Array, recordS: Float64Array): Int32Array {
  const latest = new Int32Array(timeS.length);
  let next = 0;
  for (let i = 0; i < timeS.length; i++) {
    while (next < recordS.length && recordS[next] <= timeS[i]) next++;
    latest[i] = next - 1;
  }
  return latest;
}
