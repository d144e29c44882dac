import { type TroubleTally, tallyTrouble } from '../cogs/trouble-tally.ts';
import type { Adjustment } from './adjustment.ts';
import {
  type AdjustmentPeriod,
  type AdjustmentPeriods,
  adjustmentPeriods,
  partOfPeriod,
} from './adjustment-periods.ts';
import { withoutCancelled } from './cancelled-out.ts';
import { type AllShiftsComparison, compareAllShifts } from './compare-all-shifts.ts';
import { type CogComparison, compareCogs } from './compare-cogs.ts';
import { compareEndCog, type EndCogComparison } from './compare-end-cog.ts';
import { compareSkips, type SkipComparison, wears } from './compare-skips.ts';
import type { RiddenFor } from './count-skips.ts';
import type { EndCogEvents } from './end-cog-count.ts';

/** Whether one adjustment helped. */
export interface AdjustmentComparison {
  readonly at: string;
  readonly parameter: Adjustment['parameter'];
  readonly amount: number | null;
  readonly unit: Adjustment['unit'];
  /** Rides since the adjustment before this one, or since a fault began suddenly after it. */
  readonly before: TroubleTally;
  /** Rides until the next adjustment, or until a fault began suddenly before it. */
  readonly after: TroubleTally;
  readonly cogs: readonly CogComparison[];
  /** For a limit screw: its end cog, by which alone it is judged. */
  readonly endCog: Omit<EndCogComparison, 'probabilityBetter' | 'shiftsStillNeeded'> | null;
  /** For a chain or cassette: the skips on the old parts and on the new ones. */
  readonly skipping: SkipComparison | null;
  readonly probabilityBetter: number;
  readonly shiftsStillNeeded: number | null;
  /** What all shifts together hide, where it is judged by them; at most one is set. */
  readonly cameBack: AllShiftsComparison['cameBack'];
  readonly wentOnGrowing: AllShiftsComparison['wentOnGrowing'];
  readonly oppositeWays: AllShiftsComparison['oppositeWays'];
  /** How many groups of adjustments lie before its own: the same for those made with no judged shift between. */
  readonly group: number;
  /** True where another adjustment was made with no judged shift between: what follows cannot be shared out. */
  readonly sharedPeriod: boolean;
  /** True where it was taken back, or took one back, with no ride between: there is nothing to judge. */
  readonly cancelledOut: boolean;
  /** Judged shifts before and after that are left out of the two, since a fault began suddenly between them and the rest. */
  readonly leftOut: { readonly before: number; readonly after: number };
}

/** The moment at which a fault began suddenly is known to within so many judged shifts (assumption of ours). */
const KNOWN_TO_SHIFTS = 10;

/** A period from the moment on at which a fault began, as far as shifts were judged after it. */
function sinceItBegan(period: AdjustmentPeriod, beganMs: number): AdjustmentPeriod {
  const since = partOfPeriod(period, beganMs, Number.POSITIVE_INFINITY);
  return since.shifts.length > 0 ? since : period;
}

/** A period up to the moment at which a fault began; the whole of it where that may have been at its very beginning. */
function untilItBegan(period: AdjustmentPeriod, beganMs: number): AdjustmentPeriod {
  const until = partOfPeriod(period, Number.NEGATIVE_INFINITY, beganMs);
  return until.shifts.length >= KNOWN_TO_SHIFTS ? until : period;
}

/** What stands in place of a comparison where there is nothing to judge. */
const NOT_JUDGED = {
  ...{ cogs: [], endCog: null, skipping: null, probabilityBetter: 0.5, shiftsStillNeeded: null },
  ...{ cameBack: null, wentOnGrowing: null, oppositeWays: null, sharedPeriod: false, leftOut: { before: 0, after: 0 } },
} as const;

type Row = Omit<AdjustmentComparison, 'group'>;

const said = ({ at, parameter, amount, unit }: Adjustment) => ({ at, parameter, amount, unit });

/**
 * Sets the rides before each adjustment against those after it, in order of time: overall, by cog and direction
 * where anything was seen, and for a limit screw on its end cog, which then decides. Adjustments with no judged shift between them share their before and
 * after. What was taken back with no ride between parts nothing: the rides either side of it are one period.
 *
 * @param beganMs where a fault began suddenly: what went well before it is not set against an adjustment that came after, nor what
 *   went wrong since then against one that came before
 */
export function compareAdjustments(
  rides: readonly RiddenFor[],
  adjustments: readonly Adjustment[],
  cassetteLength: number,
  beganMs = Number.NEGATIVE_INFINITY,
): AdjustmentComparison[] {
  const judged = adjustmentPeriods(rides, withoutCancelled(adjustments, rides));
  const rows = new Map(
    judged.groups.flatMap((group, i) => {
      const row = compareGroup(rides, judged, i, { cassetteLength, beganMs });
      return group.adjustments.map((made) => [made, row(made)] as const);
    }),
  );
  const { groups, periods } = adjustmentPeriods(rides, adjustments);
  return groups.flatMap((group, i) => {
    const [before, after] = [periods[i], periods[i + 1]].map(tallyTrouble);
    const takenBack = { before, after, ...NOT_JUDGED, cancelledOut: true };
    return group.adjustments.map((made) => ({ ...(rows.get(made) ?? { ...said(made), ...takenBack }), group: i }));
  });
}

interface ComparedOn {
  readonly cassetteLength: number;
  readonly beganMs: number;
}

/** Compares one group of adjustments; each of them is then told by what it was. */
function compareGroup(
  rides: readonly RiddenFor[],
  { groups, periods }: AdjustmentPeriods,
  group: number,
  { cassetteLength, beganMs }: ComparedOn,
): (made: Adjustment) => Row {
  const [earlier, later] = [sinceItBegan(periods[group], beganMs), untilItBegan(periods[group + 1], beganMs)];
  const [before, after] = [tallyTrouble(earlier), tallyTrouble(later)];
  const cogs = compareCogs(earlier, later, cassetteLength);
  const overall = compareAllShifts([earlier, later], rides, cogs, cassetteLength);
  const skipping = compareSkips(rides, groups, group);
  const leftOut = {
    before: periods[group].shifts.length - earlier.shifts.length,
    after: periods[group + 1].shifts.length - later.shifts.length,
  };
  const hidden = ({ cameBack, wentOnGrowing, oppositeWays }: AllShiftsComparison) => ({
    ...{ cameBack, wentOnGrowing, oppositeWays },
  });
  return (made) => {
    const own = compareEndCog(made, [commandedIn(earlier), commandedIn(later)], cassetteLength);
    return {
      ...{ ...said(made), before, after, cogs },
      endCog: own && { end: own.end, before: own.before, after: own.after },
      skipping: wears(made.parameter) ? skipping : null,
      probabilityBetter: (own ?? overall).probabilityBetter,
      shiftsStillNeeded: (own ?? overall).shiftsStillNeeded,
      ...(own ? { cameBack: null, wentOnGrowing: null, oppositeWays: null } : hidden(overall)),
      sharedPeriod: groups[group].adjustments.length > 1,
      cancelledOut: false,
      leftOut,
    };
  };
}

const commandedIn = ({ commanded, chainDrops }: AdjustmentPeriod): EndCogEvents => ({ shifts: commanded, chainDrops });
