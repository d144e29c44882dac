import type { Bike } from '../../src/drivetrain/bike.ts';
import { developmentM } from '../../src/drivetrain/development.ts';
import { ladderPeaks, type Rung } from '../../src/gear-trace/ladder-peaks.ts';
import { pedallingSamples } from '../../src/gear-trace/pedalling-samples.ts';
import { sharpestHistogram } from '../../src/gear-trace/sharpest-histogram.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';

/** Limits of ours on when a ride is taken for one of a bike. */
const rule = {
  /** Share of gear records that name a cog and ring of the bike. */
  recorded: 0.8,
  /** Rungs that a ride without gear records must show before it can be told whose it is. */
  rungs: 5,
  /** Share of its steady seconds that must lie in a gear of the bike. */
  steady: 0.95,
  /** How near a rung must lie to a gear's development, as a share of it. */
  near: 0.01,
};

/** A bike that a ride may be of. `rolloutMm`: given, or measured from its rides; null where neither is known. */
export interface Candidate {
  readonly bike: Bike;
  readonly rolloutMm: number | null;
}

/** Rungs of the ride's ladder of developments; none where no gears show. */
export function rungsOf(log: RideLog): readonly Rung[] {
  const sharpest = sharpestHistogram(log, pedallingSamples(log));
  return sharpest.shows ? ladderPeaks(sharpest.histogram) : [];
}

/**
 * How well a ride agrees with a bike, 0 to 1; 0 as well where it agrees too little or too little is known. With gear
 * records: the share of them that name a cog and ring of the bike. Without: the share of steady pedalling in gears
 * whose development the bike has. Two bikes with the same gears cannot be told apart.
 *
 * @param rungs `rungsOf` the ride; used where it has no gear records
 */
export function fitsBike(log: RideLog, rungs: readonly Rung[], { bike, rolloutMm }: Candidate): number {
  const { rearTeeth, frontTeeth } = log.gearRecords;
  const rear = shareWithin(rearTeeth, bike.cassette);
  if (rear !== null) {
    const share = Math.min(rear, shareWithin(frontTeeth, bike.chainrings) ?? 1);
    return share >= rule.recorded ? share : 0;
  }
  if (rolloutMm === null || rungs.length < rule.rungs) return 0;
  const gears = bike.chainrings.flatMap((ring) =>
    bike.cassette.map((cog) => Math.log(developmentM(rolloutMm, ring, cog))),
  );
  const total = rungs.reduce((sum, { seconds }) => sum + seconds, 0);
  const within = rungs
    .filter(({ logDevelopment }) => gears.some((gear) => Math.abs(gear - logDevelopment) <= rule.near))
    .reduce((sum, { seconds }) => sum + seconds, 0);
  return within / total >= rule.steady ? within / total : 0;
}

/** Null where no tooth count is recorded. */
function shareWithin(recorded: Uint8Array, own: readonly number[]): number | null {
  const known = recorded.filter((teeth) => teeth > 0);
  return known.length === 0 ? null : known.filter((teeth) => own.includes(teeth)).length / known.length;
}
