import { type CassetteEnd, cassetteEnds } from '../../adjustments/end-cog-count.ts';
import type { Look } from '../../adjustments/looks.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { ChainDropEvent } from '../../shifts/ride-events.ts';
import type { RideLosses } from './last-lost.ts';

type Side = ChainDropEvent['side'];

/** Whether a chain was lost past an end of the cassette, where limit and hanger tell of it. */
export const isPastAnEnd = (side: Side): side is CassetteEnd => cassetteEnds.some((end) => end === side);

/** When the chain was last looked over and found right, Unix milliseconds; -Infinity where nobody did. */
export const chainLookedOverMs = (looks: readonly { readonly at: string; readonly parameter: string }[]): number =>
  Math.max(
    Number.NEGATIVE_INFINITY,
    ...looks.filter(({ parameter }) => parameter === 'chain').map(({ at }) => Date.parse(at)),
  );

/**
 * Rides without the chains that came off the chainring, or nobody knows where, before the chain was looked over: that look was asked for and is
 * answered. One on a ride without a date stays, for nobody knows that it was before.
 */
export function notLookedOver<Ride extends RideLosses>(rides: readonly Ride[], looks: readonly Look[]): Ride[] {
  const lookedMs = chainLookedOverMs(looks);
  return rides.map((ride) => ({
    ...ride,
    events: {
      ...ride.events,
      chainDrops: ride.events.chainDrops.filter(
        ({ side, timeS }) => isPastAnEnd(side) || !(hasClock(ride.startMs) && ride.startMs + timeS * 1000 < lookedMs),
      ),
    },
  }));
}
