import { sum } from 'd3-array';
import type { Adjustment } from '../../adjustments/adjustment.ts';
import { type CassetteEnd, countEndCog, type EndCogCount, type EndCogEvents } from '../../adjustments/end-cog-count.ts';
import { limitHolds, type TriedBefore } from '../../adjustments/limit-holds.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import { isLoose, limitAt } from '../cassette-ends.ts';
import type { Cause } from '../causes.ts';
import { CURED_BELOW } from '../cured-below.ts';
import type { DiagnosisRide } from '../diagnosis.ts';
import { canBring } from '../likelihood/onset-options.ts';
import { lastLostMs, type RideLosses } from './last-lost.ts';

/** How an end cog fared since its limit was last seen to, and before. */
export interface LimitTrial {
  readonly end: CassetteEnd;
  /** Unix milliseconds; null where nothing was done that the shifts since could speak for. */
  readonly fromMs: number | null;
  readonly before: EndCogCount & TriedBefore;
  /** Nothing where `fromMs` is null. */
  readonly since: EndCogCount;
  /** Probability that the limit stops the chain now; 1 where no chain was ever lost past it, 0 where one was lost since. */
  readonly holds: number;
}

/** Something done, or, with an amount of 0, looked at. */
type Done = Pick<Adjustment, 'at' | 'parameter' | 'amount'>;

/** Whether the rides since show anything of a cause at its end cog: a limit that lets the chain past it only where the chain got there. */
export const isTried = (cause: Cause, { since }: LimitTrial): boolean =>
  (isLoose(cause) ? since.reached : since.shifts) > 0;

/** Whether a chain was lost past an end and nothing since shows that it stays on: nobody is sent onto the cog there. */
export const isUnproven = ({ holds }: LimitTrial): boolean => holds < 1 - CURED_BELOW;

/**
 * Puts an end cog on trial from the first adjustment after the last chain lost past it, or from the one that may have let the chain past it
 * again; a look at its limit or hanger that found it right counts as one. Where no chain was lost, from the last one that touches its limit. A chain lost on a ride without a date may have been lost since.
 *
 * @param adjustments with the looks among them, in order of time
 */
export function limitTrial(
  end: CassetteEnd,
  rides: readonly DiagnosisRide[],
  adjustments: readonly Done[],
  cassetteLength: number,
): LimitTrial {
  const fromMs = trialFromMs(end, rides, adjustments);
  const count = (counts: (ms: number) => boolean): EndCogCount =>
    countEndCog(eventsOf(rides, counts), end, cassetteLength);
  const isSince = (ms: number): boolean => fromMs !== null && ms >= fromMs;
  const [before, since] = [count((ms) => !isSince(ms)), count(isSince)];
  const lost = before.lost + since.lost > 0;
  if (!lost) return { end, fromMs, before, since, holds: 1 };
  const tried = { ...before, keptFirst: keptBeforeFirstLost(end, rides, cassetteLength) };
  return { end, fromMs, before: tried, since, holds: fromMs === null ? 0 : limitHolds(tried, since) };
}

/** Shifts that brought the chain onto an end cog on the rides before the first that lost it there: the limit may have come loose since. None where a ride has no date. */
function keptBeforeFirstLost(end: CassetteEnd, rides: readonly DiagnosisRide[], cassetteLength: number): number {
  if (!rides.every(({ startMs }) => hasClock(startMs))) return 0;
  const counts = [...rides]
    .sort((a, b) => a.startMs - b.startMs)
    .map(({ events }) => countEndCog(events, end, cassetteLength));
  const first = counts.findIndex(({ lost }) => lost > 0);
  return sum(counts.slice(0, first), ({ reached }) => reached);
}

/** From when an end cog is on trial, Unix milliseconds; null where nothing was done that the shifts since could speak for. */
export function trialFromMs(
  end: CassetteEnd,
  rides: readonly RideLosses[],
  adjustments: readonly Done[],
): number | null {
  const touches = ({ parameter, amount }: Done): boolean => amount !== 0 && canBring(limitAt[end].loose, parameter);
  const lostMs = lastLostMs(end, rides);
  const atMs = ({ at }: Done): number => Date.parse(at);
  if (lostMs === Number.NEGATIVE_INFINITY) {
    const last = adjustments.findLast(touches);
    return last ? atMs(last) : null;
  }
  const after = adjustments.filter((one) => atMs(one) > lostMs);
  if (after.length === 0) return null;
  // one turned in further proves no less what the rides before it showed
  const opened = after.findLast((one) => touches(one) && !((one.amount ?? -1) > 0));
  return atMs(opened ?? after[0]);
}

/** What happened at moments that a rule picks (Unix milliseconds; NaN for a ride without a date). */
function eventsOf(rides: readonly DiagnosisRide[], picks: (ms: number) => boolean): EndCogEvents {
  const picked = <Event extends { readonly timeS: number }>(pick: (ride: DiagnosisRide) => readonly Event[]): Event[] =>
    rides.flatMap((ride) =>
      pick(ride).filter(({ timeS }) => picks(hasClock(ride.startMs) ? ride.startMs + timeS * 1000 : Number.NaN)),
    );
  return { shifts: picked(({ events }) => events.shifts), chainDrops: picked(({ events }) => events.chainDrops) };
}
