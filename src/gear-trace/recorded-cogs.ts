import type { Bike } from '../drivetrain/bike.ts';
import { bikeRolloutMm } from '../drivetrain/bike-rollout.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { logDevelopmentColumn, type PedallingSamples } from './pedalling-samples.ts';
import { type PlaceMisfit, placesOfTeeth } from './places-of-teeth.ts';
import { robustCentre } from './robust-centre.ts';
import { type AskedGears, settledSamples } from './settled-samples.ts';

/** Settled records that a recorded tooth count needs to show its development. */
const MIN_RECORDS = 20;
/** A development counts for this much more than the teeth that someone configured, and is off by no more than this (log). */
const MEASURED_WEIGHT = 4;
const MOST_OFF = 0.15;
/** Rollout and rings may be written this far off (log), in these steps. */
const SCALE_REACH = 0.05;
const SCALE_STEP = 0.01;
/** The rollout of a usual wheel, for a bike file that names none, m; its scale is known less well. */
const USUAL_ROLLOUT_M = 2.12;
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
  const { cassette, chainrings } = bike;
  const byTeeth = placesOfTeeth(rearTeeth, cassette);
  const seen = [...byTeeth.places.keys()].sort((a, b) => a - b);
  if (byTeeth.cost === 0 || seen.length === cassette.length) return byTeeth.places;

  let inForce = -1;
  const known = Int8Array.from(rearTeeth, (teeth) => {
    if (teeth > 0) inForce = seen.indexOf(teeth);
    return inForce;
  });
  const settled = settledSamples(log, samples, { ...rings, cog: known }, seen.length, chainrings.length);
  const column = logDevelopmentColumn(log, samples, 0);
  const shown = new Map<number, { logDevelopment: number; share: number }[]>();
  settled.forEach((indices, gear) => {
    const peak = robustCentre(Float64Array.from(indices, (i) => column[i]));
    if (peak.count < MIN_RECORDS) return;
    const teeth = seen[gear % seen.length];
    const ring = chainrings[Math.floor(gear / seen.length)];
    shown.set(teeth, [
      ...(shown.get(teeth) ?? []),
      { logDevelopment: peak.centre - Math.log(ring), share: peak.count },
    ]);
  });
  let best = byTeeth;
  let least = Number.POSITIVE_INFINITY;
  const writtenM = bikeRolloutMm(bike) / 1000;
  const reach = Number.isNaN(writtenM) ? USUAL_REACH : SCALE_REACH;
  for (let off = -reach; off <= reach + 1e-9; off += SCALE_STEP) {
    const scale = Math.log(Number.isNaN(writtenM) ? USUAL_ROLLOUT_M : writtenM) + off;
    const misfit: PlaceMisfit = (teeth, place) => {
      const of = shown.get(teeth) ?? [];
      const total = of.reduce((sum, { share }) => sum + share, 0);
      return of.reduce((sum, { logDevelopment, share }) => {
        const apart = Math.abs(logDevelopment - scale + Math.log(cassette[place]));
        return sum + (MEASURED_WEIGHT * Math.min(MOST_OFF, apart) * share) / total;
      }, 0);
    };
    const read = placesOfTeeth(rearTeeth, cassette, misfit);
    if (read.cost < least) {
      best = read;
      least = read.cost;
    }
  }
  return best.places;
}
