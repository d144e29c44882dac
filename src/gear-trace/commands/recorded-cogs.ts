import { sum } from 'd3-array';
import type { Bike } from '../../drivetrain/bike.ts';
import { bikeRolloutMm, USUAL_ROLLOUT_M } from '../../drivetrain/bike-rollout.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { logDevelopmentColumn, type PedallingSamples } from '../samples/pedalling-samples.ts';
import { robustCentre } from '../samples/robust-centre.ts';
import { type AskedGears, settledSamples } from '../samples/settled-samples.ts';
import { type PlaceMisfit, placesOfTeeth } from './places-of-teeth.ts';

/** Settled records that a recorded tooth count needs to show its development. */
const MIN_RECORDS = 20;
/** A development counts for this much more than the teeth that someone configured, and is off by no more than this (log). */
const MEASURED_WEIGHT = 4;
const MOST_OFF = 0.15;
/** Rollout and rings may be written this far off (log), in these steps. */
const SCALE_REACH = 0.05;
const SCALE_STEP = 0.01;
/** The same for a bike file that names no rollout: a usual wheel's is known less well. */
const USUAL_REACH = 0.08;

/**
 * Which cog each recorded tooth count stands for where the records hold no positions and other teeth than the bike's: by the teeth
 * and by the development at which the ride was pedalled while each was recorded. One cog often not reached does no harm, since the
 * counts keep their order.
 */
export function recordedCogs(
  log: RideLog,
  bike: Bike,
  samples: PedallingSamples,
  rings: Omit<AskedGears, 'cog'>,
): ReadonlyMap<number, number> {
  const { rearTeeth } = log.gearRecords;
  const { cassette } = bike;
  const byTeeth = placesOfTeeth(rearTeeth, cassette);
  const seen = [...byTeeth.places.keys()].sort((a, b) => a - b);
  if (byTeeth.cost === 0 || seen.length === cassette.length) return byTeeth.places;

  const shown = shownDevelopments(log, bike, samples, { rings, seen });
  const writtenM = bikeRolloutMm(bike) / 1000;
  const reach = Number.isNaN(writtenM) ? USUAL_REACH : SCALE_REACH;
  let best = byTeeth;
  let least = Number.POSITIVE_INFINITY;
  for (let off = -reach; off <= reach + 1e-9; off += SCALE_STEP) {
    const scale = Math.log(Number.isNaN(writtenM) ? USUAL_ROLLOUT_M : writtenM) + off;
    const read = placesOfTeeth(rearTeeth, cassette, misfitAt(shown, cassette, scale));
    if (read.cost < least) {
      best = read;
      least = read.cost;
    }
  }
  return best.places;
}

/** A development at which a tooth count was pedalled on one ring, that ring taken off (log of metres a turn of the cog), and how many records show it. */
interface ShownDevelopment {
  readonly logDevelopment: number;
  readonly records: number;
}

/** The developments at which each recorded tooth count was pedalled, ring by ring, by teeth. */
function shownDevelopments(
  log: RideLog,
  { chainrings }: Bike,
  samples: PedallingSamples,
  { rings, seen }: { readonly rings: Omit<AskedGears, 'cog'>; readonly seen: readonly number[] },
): ReadonlyMap<number, readonly ShownDevelopment[]> {
  let inForce = -1;
  const { rearTeeth, rearLost } = log.gearRecords;
  const cog = Int8Array.from(rearTeeth, (teeth, i) => {
    if (teeth > 0) inForce = seen.indexOf(teeth);
    else if (rearLost?.[i]) inForce = -1;
    return inForce;
  });
  const settled = settledSamples(log, samples, { ...rings, cog }, { cogs: seen.length, rings: chainrings.length });
  const column = logDevelopmentColumn(log, samples, 0);
  const shown = new Map<number, ShownDevelopment[]>();
  settled.forEach((indices, gear) => {
    const peak = robustCentre(Float64Array.from(indices, (i) => column[i]));
    if (peak.count < MIN_RECORDS) return;
    const teeth = seen[gear % seen.length];
    const ring = chainrings[Math.floor(gear / seen.length)];
    const development = { logDevelopment: peak.centre - Math.log(ring), records: peak.count };
    shown.set(teeth, [...(shown.get(teeth) ?? []), development]);
  });
  return shown;
}

/** How badly a tooth count's developments fit a place of the cassette at a scale (log of the rollout in metres). */
function misfitAt(
  shown: ReadonlyMap<number, readonly ShownDevelopment[]>,
  cassette: readonly number[],
  scale: number,
): PlaceMisfit {
  return (teeth, place) => {
    const developments = shown.get(teeth) ?? [];
    const total = sum(developments, ({ records }) => records);
    return sum(developments, ({ logDevelopment, records }) => {
      const apart = Math.abs(logDevelopment - scale + Math.log(cassette[place]));
      return (MEASURED_WEIGHT * Math.min(MOST_OFF, apart) * records) / total;
    });
  };
}
