import type { AdjustmentPeriod, PlacedRide } from './adjustment-periods.ts';
import { asRidesDiffer } from './as-rides-differ.ts';
import { type CameBack, cameBack } from './came-back.ts';
import type { CogComparison } from './compare-cogs.ts';
import { DECIDED_AT, probabilityBetter, shiftsStillNeeded } from './compare-rates.ts';
import { type OppositeWays, oppositeWays } from './opposite-ways.ts';
import { rideCountsOf, together } from './ride-counts-of.ts';
import { type WentOnGrowing, wentOnGrowing } from './went-on-growing.ts';

/** Before against after by all judged shifts, with what the two rates by themselves hide; at most one of those is set. */
export interface AllShiftsComparison {
  readonly probabilityBetter: number;
  readonly shiftsStillNeeded: number | null;
  readonly cameBack: CameBack | null;
  readonly wentOnGrowing: WentOnGrowing | null;
  readonly oppositeWays: OppositeWays | null;
}

/** Whether an adjustment helped, by all judged shifts of the periods before and after it. */
export function compareAllShifts(
  [earlier, later]: readonly [AdjustmentPeriod, AdjustmentPeriod],
  rides: readonly Pick<PlacedRide, 'startMs'>[],
  cogs: readonly CogComparison[],
  cassetteLength: number,
): AllShiftsComparison {
  const [ridesBefore, ridesAfter] = [rideCountsOf(earlier, rides), rideCountsOf(later, rides)];
  const [before, after] = [asRidesDiffer(ridesBefore), asRidesDiffer(ridesAfter)];
  const better = probabilityBetter(before, after);
  const told = { cameBack: null, wentOnGrowing: null, oppositeWays: null };
  const worth = after.shifts > 0 ? after.shifts / together(ridesAfter).shifts : 1;
  const byRate = { ...told, probabilityBetter: better, shiftsStillNeeded: shiftsStillNeeded(before, after, worth) };
  const ways = oppositeWays(cogs, cassetteLength, better);
  const back = cameBack(ridesBefore, ridesAfter);
  // trouble that is gone where it was, and there where it was not, did not come back
  if (back) return ways ? { ...byRate, oppositeWays: ways } : { ...byRate, cameBack: back };
  const growing = better <= 1 - DECIDED_AT ? wentOnGrowing(ridesBefore, ridesAfter) : null;
  if (growing)
    return {
      ...told,
      wentOnGrowing: growing,
      probabilityBetter: growing.probabilityBetter,
      shiftsStillNeeded: null,
    };
  return { ...byRate, oppositeWays: ways };
}
