import { developmentM } from '../../src/drivetrain/development.ts';
import { ladderPeaks, type Rung } from '../../src/gear-trace/ladder/ladder-peaks.ts';
import { sharpestHistogram } from '../../src/gear-trace/ladder/sharpest-histogram.ts';
import { pedallingSamples } from '../../src/gear-trace/samples/pedalling-samples.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import type { CandidateBike } from './tasks.ts';

/** Limits of ours on when a ride is taken for one of a bike. */
const rule = {
  /** Share of gear records, or of recorded sizes, that must agree. */
  recorded: 0.8,
  /** Rungs that a ride without gear records must show before it can be told whose it is. */
  rungs: 5,
  /** Share of its steady seconds that must lie in a gear of the bike. */
  steady: 0.95,
  /** By so much less steady time in its gears a bike is as good as another: their sensors differ by more. */
  alike: 0.02,
  /** How near a rung must lie to a gear's development, as a share of it. */
  near: 0.01,
};

/** A bike that a ride may be of. `rolloutMm`: given, or measured from its rides; null where neither is known. */
export type Candidate = Pick<CandidateBike, 'bike' | 'rolloutMm' | 'guessed' | 'recorded'>;

/** Rungs of the ride's ladder of developments; none where no gears show. */
export function rungsOf(log: RideLog): readonly Rung[] {
  const sharpest = sharpestHistogram(log, pedallingSamples(log));
  return sharpest.shows ? ladderPeaks(sharpest.histogram) : [];
}

const recordsCogs = ({ gearRecords }: RideLog): boolean => gearRecords.rearTeeth.some((teeth) => teeth > 0);

/** By how much less a bike may fit a ride and still be as likely as the one that fits best: records are exact, ladders are not. */
export const alikeWithin = (log: RideLog): number => (recordsCogs(log) ? 0 : rule.alike);

/**
 * How well a ride agrees with a bike, 0 to 1; 0 as well where it agrees too little or too little is known. With gear
 * records: the share of sizes that its records and those of the bike's other rides both name, of all that the one with
 * fewer names (a device says the same on every ride, right or wrong); or the share of its records that name a cog and
 * ring of the bike as it was written down. Without: the share of steady pedalling in gears whose development the bike
 * has. Two bikes with the same gears cannot be told apart.
 *
 * @param rungs `rungsOf` the ride; used where it has no gear records
 */
export function fitsBike(log: RideLog, rungs: readonly Rung[], candidate: Candidate): number {
  const { rearTeeth, frontTeeth } = log.gearRecords;
  if (!recordsCogs(log)) return fitsByLadder(rungs, candidate);
  const { bike, recorded, guessed } = candidate;
  const written = guessed ? 0 : Math.min(within(rearTeeth, bike.cassette), within(frontTeeth, bike.chainrings));
  const told =
    recorded.rear.length > 0 ? Math.min(common(rearTeeth, recorded.rear), common(frontTeeth, recorded.front)) : 0;
  const share = Math.max(written, told);
  return share >= rule.recorded ? share : 0;
}

function fitsByLadder(rungs: readonly Rung[], { bike, rolloutMm }: Candidate): number {
  if (rolloutMm === null || rungs.length < rule.rungs) return 0;
  const gears = bike.chainrings.flatMap((ring) =>
    bike.cassette.map((cog) => Math.log(developmentM(rolloutMm, ring, cog))),
  );
  const total = rungs.reduce((sum, { seconds }) => sum + seconds, 0);
  const inGear = rungs
    .filter(({ logDevelopment }) => gears.some((gear) => Math.abs(gear - logDevelopment) <= rule.near))
    .reduce((sum, { seconds }) => sum + seconds, 0);
  return inGear / total >= rule.steady ? inGear / total : 0;
}

/** Share of the records that name one of these sizes; 1 where none names any. */
function within(recorded: Uint8Array, own: readonly number[]): number {
  const known = recorded.filter((teeth) => teeth > 0);
  return known.length === 0 ? 1 : known.filter((teeth) => own.includes(teeth)).length / known.length;
}

/** Share of sizes that both name, of all that the one with fewer names; 1 where one names none. */
function common(recorded: Uint8Array, own: readonly number[]): number {
  const sizes = [...new Set(recorded)].filter((teeth) => teeth > 0);
  const fewer = Math.min(sizes.length, own.length);
  return fewer === 0 ? 1 : sizes.filter((teeth) => own.includes(teeth)).length / fewer;
}
