import { hasClock } from '../ride-log/has-clock.ts';
import type { GhostShiftEvent, RideEvents, ShiftEvent } from '../shifts/ride-events.ts';
import type { Adjustment } from './adjustment.ts';

/** A ride that can be placed on the calendar. `startMs`: Unix milliseconds, see `hasClock`. */
export interface PlacedRide {
  readonly startMs: number;
  readonly events: RideEvents;
}

/** Adjustments with no judged shift between them: what the rides after them show cannot be shared out among them. */
export interface AdjustmentGroup {
  readonly adjustments: readonly Adjustment[];
  /** Unix milliseconds of the first and the last of them. */
  readonly firstMs: number;
  readonly lastMs: number;
}

/** What was ridden between two groups of adjustments, in order of time. Judged shifts only; moments in Unix milliseconds. */
export interface AdjustmentPeriod {
  readonly shifts: readonly ShiftEvent[];
  readonly shiftMs: readonly number[];
  readonly ghostShifts: readonly GhostShiftEvent[];
  readonly ghostMs: readonly number[];
}

/** Groups in order of time, and the periods around them: `periods[i]` lies before `groups[i]`, one more than groups. */
export interface AdjustmentPeriods {
  readonly groups: readonly AdjustmentGroup[];
  readonly periods: readonly AdjustmentPeriod[];
}

/**
 * Splits rides at the adjustments, also in the middle of a ride; what happened at the very moment of one came after it. Rides without a clock cannot be placed and are left
 * out when there are adjustments at all; without adjustments there is one period with every ride in it.
 */
export function adjustmentPeriods(rides: readonly PlacedRide[], adjustments: readonly Adjustment[]): AdjustmentPeriods {
  const sorted = [...adjustments].sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
  const placed = sorted.length === 0 ? rides : rides.filter((ride) => hasClock(ride.startMs));
  const judged = placed
    .flatMap((ride) =>
      ride.events.shifts
        .filter((shift) => shift.outcome !== 'unjudged')
        .map((shift) => ({ ms: ride.startMs + shift.timeS * 1000, shift })),
    )
    .sort((a, b) => a.ms - b.ms);
  const ghosts = placed
    .flatMap((ride) => ride.events.ghostShifts.map((ghost) => ({ ms: ride.startMs + ghost.timeS * 1000, ghost })))
    .sort((a, b) => a.ms - b.ms);
  const all: AdjustmentPeriod = {
    shifts: judged.map(({ shift }) => shift),
    shiftMs: judged.map(({ ms }) => ms),
    ghostShifts: ghosts.map(({ ghost }) => ghost),
    ghostMs: ghosts.map(({ ms }) => ms),
  };
  const groups: { adjustments: Adjustment[]; firstMs: number; lastMs: number }[] = [];
  for (const adjustment of sorted) {
    const ms = Date.parse(adjustment.at);
    const last = groups.at(-1);
    if (last && !judged.some((entry) => entry.ms >= last.lastMs && entry.ms < ms)) {
      last.adjustments.push(adjustment);
      last.lastMs = ms;
    } else groups.push({ adjustments: [adjustment], firstMs: ms, lastMs: ms });
  }
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
    ghostShifts: period.ghostShifts.filter((_, i) => within(period.ghostMs[i])),
    ghostMs: period.ghostMs.filter(within),
  };
}
