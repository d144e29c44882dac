import type { Adjustment } from '../../adjustments/adjustment.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { DropSide } from '../../shifts/ride-events.ts';
import type { DiagnosisRide } from '../diagnosis.ts';
import { rideFrom } from '../evidence/ride-from.ts';
import { type Observed, observe } from '../observed.ts';

/** What the rides showed since the last adjustment; all rides where nothing was adjusted. */
export interface SeenSince {
  /** The last adjustment; null without any. */
  readonly last: (Pick<Adjustment, 'at' | 'parameter'> & Partial<Pick<Adjustment, 'amount'>>) | null;
  /** Shifts and events since, of rides that can be placed. */
  readonly seen: Observed;
  /** Chains lost since. One on a ride without a date counts: nobody knows that it was before. */
  readonly lost: (side: DropSide) => number;
}

/** Chains lost on a side from a moment on (Unix milliseconds), those of rides without a date among them. */
export const chainsLostSince = (rides: readonly DiagnosisRide[], side: DropSide, fromMs: number): number =>
  rides
    .flatMap(({ startMs, events }) => events.chainDrops.map((drop) => ({ startMs, ...drop })))
    .filter((drop) => drop.side === side)
    .filter(({ startMs, timeS }) => !hasClock(startMs) || startMs + timeS * 1000 >= fromMs).length;

/**
 * Takes out of the rides what came after the last adjustment.
 *
 * @param rides all of the bike's, also those that could not be weighed
 * @param adjustments in order of time
 */
export function seenSince(
  rides: readonly DiagnosisRide[],
  adjustments: readonly Adjustment[],
  bike: { readonly cassette: readonly number[] },
): SeenSince {
  const last = adjustments.at(-1) ?? null;
  const fromMs = last ? Date.parse(last.at) : Number.NEGATIVE_INFINITY;
  const placed = last ? rides.filter(({ startMs }) => hasClock(startMs)) : rides;
  const since = placed.map((ride) => rideFrom(ride, fromMs)).filter((ride) => ride !== null);
  return { last, seen: observe(since, bike), lost: (side) => chainsLostSince(rides, side, fromMs) };
}
