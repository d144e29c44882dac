import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { ChainDropEvent } from '../../shifts/ride-events.ts';
import type { DiagnosisRide } from '../diagnosis.ts';

/** When a ride began, and the chains that were lost on it. */
export interface RideLosses extends Pick<DiagnosisRide, 'startMs'> {
  readonly events: { readonly chainDrops: readonly Pick<ChainDropEvent, 'side' | 'timeS'>[] };
}

/** When a chain was last lost past an end, Unix milliseconds: -Infinity where none was; Infinity on a ride without a date, which may have been any time. */
export function lastLostMs(end: CassetteEnd, rides: readonly RideLosses[]): number {
  const lost = rides.flatMap(({ startMs, events }) =>
    events.chainDrops
      .filter(({ side }) => side === end)
      .map(({ timeS }) => (hasClock(startMs) ? startMs + timeS * 1000 : Number.POSITIVE_INFINITY)),
  );
  return Math.max(Number.NEGATIVE_INFINITY, ...lost);
}
