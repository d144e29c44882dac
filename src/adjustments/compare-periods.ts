import { type TroubleTally, tallyTrouble } from '../cogs/trouble-tally.ts';
import type { Adjustment } from './adjustment.ts';
import type { AdjustmentPeriod, PlacedRide } from './adjustment-periods.ts';
import { type AllShiftsComparison, compareAllShifts } from './compare-all-shifts.ts';
import { type CogComparison, compareCogs } from './compare-cogs.ts';
import { compareEndCog, type EndCogComparison } from './compare-end-cog.ts';
import { isDecided } from './compare-rates.ts';
import type { EndCogEvents } from './end-cog-count.ts';

/** What the riding before and after an adjustment shows of it. */
export interface PeriodsComparison extends AllShiftsComparison {
  readonly before: TroubleTally;
  readonly after: TroubleTally;
  readonly cogs: readonly CogComparison[];
  /** For a limit screw, and a hanger after a chain lost past an end that all shifts do not decide: the end cog, by which alone it is judged. */
  readonly endCog: Omit<EndCogComparison, 'probabilityBetter' | 'shiftsStillNeeded'> | null;
}

const commandedIn = ({ commanded, chainDrops }: AdjustmentPeriod): EndCogEvents => ({ shifts: commanded, chainDrops });

/** Sets two periods against each other: overall, by cog and direction where anything was seen, and for a limit screw, or a hanger that let the chain off, on its end cog, which then decides. */
export function comparePeriods(
  [earlier, later]: readonly [AdjustmentPeriod, AdjustmentPeriod],
  rides: readonly Pick<PlacedRide, 'startMs'>[],
  cassetteLength: number,
): (made: Pick<Adjustment, 'parameter' | 'amount'>) => PeriodsComparison {
  const cogs = compareCogs(earlier, later, cassetteLength);
  const all = { before: tallyTrouble(earlier), after: tallyTrouble(later), cogs };
  const overall = compareAllShifts([earlier, later], rides, cogs, cassetteLength);
  return (made) => {
    // a bent hanger mostly shows on all cogs: its end cog decides only where they do not
    const byAll = made.parameter === 'hanger' && isDecided(overall.probabilityBetter);
    const own = byAll ? null : compareEndCog(made, [commandedIn(earlier), commandedIn(later)], cassetteLength);
    if (!own) return { ...all, ...overall, endCog: null };
    const { end, before, after, ...decided } = own;
    return {
      ...all,
      ...decided,
      endCog: { end, before, after },
      cameBack: null,
      wentOnGrowing: null,
      oppositeWays: null,
    };
  };
}
