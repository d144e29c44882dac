import type { Bike } from '../../drivetrain/bike.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { DiagnosisRide } from '../diagnosis.ts';
import { rideFrom } from '../evidence/ride-from.ts';
import { observe } from '../observed.ts';
import { skipsOften } from './fails-like.ts';
import type { SeenSince } from './seen-since.ts';

/** A chain that skips since the last adjustment, or on all rides where nothing was adjusted. */
export interface SkippingNow {
  readonly skips: number;
  /** Those of them in the newest ride; null where no ride has a date. */
  readonly inNewest: number | null;
}

/**
 * Whether the chain skips by now, more often than the sensors slip: over all that was ridden since the last adjustment, or in the newest ride, since wear
 * comes on in the midst of rides on which nothing was turned. Null where it does not.
 *
 * @param rides all of the bike's
 */
export function skippingNow(
  rides: readonly DiagnosisRide[],
  { last, seen }: Pick<SeenSince, 'last' | 'seen'>,
  bike: Pick<Bike, 'cassette'>,
): SkippingNow | null {
  const fromMs = last ? Date.parse(last.at) : Number.NEGATIVE_INFINITY;
  const newest = rides
    .filter(({ startMs }) => hasClock(startMs))
    .flatMap((ride) => rideFrom(ride, fromMs) ?? [])
    .sort((a, b) => a.startMs - b.startMs)
    .at(-1);
  const there = newest ? observe([newest], bike) : null;
  if (!skipsOften(seen) && !(there && skipsOften(there))) return null;
  return { skips: seen.skips(), inNewest: there ? there.skips() : null };
}
