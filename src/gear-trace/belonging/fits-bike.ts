import type { Bike } from '../../drivetrain/bike.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { type RecordedTeeth, recordedTeeth } from '../commands/recorded-gears.ts';
import type { Rung } from '../ladder/ladder-peaks.ts';
import { belongingLimits } from './belonging-limits.ts';
import { shareOfTeeth, shareOwn } from './share-of-teeth.ts';
import { shareOnGears } from './share-on-gears.ts';

const limits = belongingLimits.placed;

/** A bike that a ride may be of. */
export interface LikelyBike {
  readonly bike: Bike;
  /** Given, or measured from its rides; null where neither is known. */
  readonly rolloutMm: number | null;
  readonly guessed: boolean;
  /** What the gear records of all its rides name. */
  readonly recorded: RecordedTeeth;
}

const recordsCogs = (log: RideLog): boolean => recordedTeeth(log.gearRecords).rear.length > 0;

/** By how much less a bike may fit a ride and still be as likely as the one that fits best: records are exact, ladders are not. */
export const alikeWithin = (log: RideLog): number => (recordsCogs(log) ? 0 : limits.alike);

/**
 * How well a ride agrees with a bike, 0 to 1; 0 as well where it agrees too little or too little is known. With gear
 * records: the share of sizes that its records and those of the bike's other rides both name, of all that the one with
 * fewer names (a device says the same on every ride, right or wrong); or the share of its records that name a cog and
 * ring of the bike as it was written down. Without: the share of steady pedalling in gears whose development the bike
 * has. Two bikes with the same gears cannot be told apart.
 *
 * @param rungs `rungsOf` the ride; used where it has no gear records
 */
export function fitsBike(
  log: RideLog,
  rungs: readonly Rung[],
  { bike, rolloutMm, guessed, recorded }: LikelyBike,
): number {
  if (!recordsCogs(log)) {
    const share = shareOnGears(rungs, bike, rolloutMm ?? Number.NaN, limits);
    return share >= limits.steady ? share : 0;
  }
  const { rearTeeth, frontTeeth } = log.gearRecords;
  const { rear, front } = recordedTeeth(log.gearRecords);
  const written = guessed ? 0 : Math.min(shareOwn(rearTeeth, bike.cassette), shareOwn(frontTeeth, bike.chainrings));
  const told =
    recorded.rear.length > 0 ? Math.min(shareOfTeeth(rear, recorded.rear), shareOfTeeth(front, recorded.front)) : 0;
  const share = Math.max(written, told);
  return share >= limits.teeth ? share : 0;
}
