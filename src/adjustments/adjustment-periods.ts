import { hasClock } from '../ride-log/has-clock.ts';
import type { ChainDropEvent, GhostShiftEvent, RideEvents, ShiftEvent } from '../shifts/ride-events.ts';
import type { Adjustment } from './adjustment.ts';
import { endOfScrew } from './compare-end-cog.ts';
import { inOrderOfTime } from './in-order-of-time.ts';

/** A ride that can be placed on the calendar. `startMs`: Unix milliseconds, see `hasClock`. */
export interface PlacedRide {
  readonly startMs: number;
  readonly events: RideEvents;
}

/**
 * Adjustments with no judged shift between them, nor a chain lost past an end whose limit one of them turned: what the rides after them show cannot
 * be shared out among them.
 */
export interface AdjustmentGroup {
  readonly adjustments: readonly Adjustment[];
  /** Unix milliseconds of the first and the last of them. */
  readonly firstMs: number;
  readonly lastMs: number;
}

/** What was ridden between two groups of adjustments, in order of time; moments in Unix milliseconds. */
export interface AdjustmentPeriod {
  /** Judged shifts. */
  readonly shifts: readonly ShiftEvent[];
  readonly shiftMs: readonly number[];
  /** All that were commanded, judged or not. */
  readonly commanded: readonly ShiftEvent[];
  readonly commandedMs: readonly number[];
  readonly ghostShifts: readonly GhostShiftEvent[];
  readonly ghostMs: readonly number[];
  readonly chainDrops: readonly ChainDropEvent[];
  readonly dropMs: readonly number[];
}

/** Groups in order of time, and the periods around them: `periods[i]` lies before `groups[i]`, one more than groups. */
export interface AdjustmentPeriods {
  readonly groups: readonly AdjustmentGroup[];
  readonly periods: readonly AdjustmentPeriod[];
}

/** Unix milliseconds of the judged shifts, and the chains that were lost. */
interface Telling {
  readonly judgedMs: readonly number[];
  readonly drops: readonly { readonly ms: number; readonly event: ChainDropEvent }[];
}

/**
 * Whether anything between two moments tells what the earlier of two groups did: a judged shift, or a chain lost past an end whose limit was turned. A short
 * test ride that ends in the spokes is just this, since a lost chain mostly leaves its own shift unjudged.
 */
function isTold({ judgedMs, drops }: Telling, fromMs: number, toMs: number, made: readonly Adjustment[]): boolean {
  const between = (ms: number): boolean => ms >= fromMs && ms < toMs;
  const turned = made.map(({ parameter }) => endOfScrew[parameter]);
  return (
    judgedMs.some(between) || drops.some(({ ms, event: { side } }) => between(ms) && turned.some((end) => end === side))
  );
}

/** Adjustments in order of time, those of which nothing between tells them apart in one group. */
function groupsOf(sorted: readonly Adjustment[], telling: Telling): AdjustmentGroup[] {
  const groups: { adjustments: Adjustment[]; firstMs: number; lastMs: number }[] = [];
  for (const adjustment of sorted) {
    const ms = Date.parse(adjustment.at);
    const last = groups.at(-1);
    if (last && !isTold(telling, last.lastMs, ms, [...last.adjustments, adjustment])) {
      last.adjustments.push(adjustment);
      last.lastMs = ms;
    } else groups.push({ adjustments: [adjustment], firstMs: ms, lastMs: ms });
  }
  return groups;
}

/** One kind of event of several rides, in order of time, each with its moment in Unix milliseconds. */
const inOrder = <Event extends { readonly timeS: number }>(
  rides: readonly PlacedRide[],
  pick: (events: RideEvents) => readonly Event[],
): { ms: number; event: Event }[] =>
  rides
    .flatMap(({ startMs, events }) => pick(events).map((event) => ({ ms: startMs + event.timeS * 1000, event })))
    .sort((a, b) => a.ms - b.ms);

/**
 * Splits rides at the adjustments, also in the middle of a ride; what happened at the very moment of one came after it. Rides without a clock cannot be placed and are left
 * out when there are adjustments at all; without adjustments there is one period with every ride in it.
 */
export function adjustmentPeriods(rides: readonly PlacedRide[], adjustments: readonly Adjustment[]): AdjustmentPeriods {
  const sorted = inOrderOfTime(adjustments);
  const placed = sorted.length === 0 ? rides : rides.filter((ride) => hasClock(ride.startMs));
  const commanded = inOrder(placed, ({ shifts }) => shifts);
  const judged = commanded.filter(({ event }) => event.outcome !== 'unjudged');
  const ghosts = inOrder(placed, ({ ghostShifts }) => ghostShifts);
  const drops = inOrder(placed, ({ chainDrops }) => chainDrops);
  const all: AdjustmentPeriod = {
    shifts: judged.map(({ event }) => event),
    shiftMs: judged.map(({ ms }) => ms),
    commanded: commanded.map(({ event }) => event),
    commandedMs: commanded.map(({ ms }) => ms),
    ghostShifts: ghosts.map(({ event }) => event),
    ghostMs: ghosts.map(({ ms }) => ms),
    chainDrops: drops.map(({ event }) => event),
    dropMs: drops.map(({ ms }) => ms),
  };
  const groups = groupsOf(sorted, { judgedMs: all.shiftMs, drops });
  const periods = Array.from({ length: groups.length + 1 }, (_, i) =>
    partOfPeriod(
      all,
      groups[i - 1]?.lastMs ?? Number.NEGATIVE_INFINITY,
      groups[i]?.firstMs ?? Number.POSITIVE_INFINITY,
    ),
  );
  return { groups, periods };
}

/** What of a period lies from one moment on (Unix milliseconds) and before the other. */
export function partOfPeriod(period: AdjustmentPeriod, fromMs: number, toMs: number): AdjustmentPeriod {
  const within = (ms: number): boolean => ms >= fromMs && ms < toMs;
  return {
    shifts: period.shifts.filter((_, i) => within(period.shiftMs[i])),
    shiftMs: period.shiftMs.filter(within),
    commanded: period.commanded.filter((_, i) => within(period.commandedMs[i])),
    commandedMs: period.commandedMs.filter(within),
    ghostShifts: period.ghostShifts.filter((_, i) => within(period.ghostMs[i])),
    ghostMs: period.ghostMs.filter(within),
    chainDrops: period.chainDrops.filter((_, i) => within(period.dropMs[i])),
    dropMs: period.dropMs.filter(within),
  };
}
