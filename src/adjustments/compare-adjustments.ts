import { tallyTrouble } from '../cogs/trouble-tally.ts';
import type { Adjustment } from './adjustment.ts';
import {
  type AdjustmentPeriod,
  type AdjustmentPeriods,
  adjustmentPeriods,
  partOfPeriod,
} from './adjustment-periods.ts';
import { withoutCancelled } from './cancelled-out.ts';
import { comparePeriods, type PeriodsComparison } from './compare-periods.ts';
import { isDecided } from './compare-rates.ts';
import { compareSkips, type SkipComparison, wears } from './compare-skips.ts';
import type { RiddenFor } from './part-of-ride.ts';
import { ridingAfter, turnsUpTo } from './turned-further.ts';

/** Several turns of one setting the same way, weighed as one: the riding before the first against that after the last. */
interface TurnsTogether
  extends Pick<PeriodsComparison, 'before' | 'after' | 'endCog' | 'probabilityBetter' | 'shiftsStillNeeded'> {
  /** ISO time of the first. */
  readonly fromAt: string;
}

/** Whether one adjustment helped: before are the rides since the adjustment before this one, after those until the next, as far as no fault began suddenly between. */
export interface AdjustmentComparison extends PeriodsComparison {
  readonly at: string;
  readonly parameter: Adjustment['parameter'];
  readonly amount: number | null;
  readonly unit: Adjustment['unit'];
  /** For a chain or cassette: the skips on the old parts and on the new ones. */
  readonly skipping: SkipComparison | null;
  /** Where it is the last of several turns the same way and does not tell by itself: what they did together. */
  readonly together: TurnsTogether | null;
  /** What was done next, which ended the riding on it; null where nothing was. */
  readonly followedBy: Pick<Adjustment, 'at' | 'parameter' | 'amount'> | null;
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
  ...{ cameBack: null, wentOnGrowing: null, oppositeWays: null, together: null, followedBy: null },
  ...{ sharedPeriod: false, cancelledOut: true, leftOut: { before: 0, after: 0 } },
} as const;

type Row = Omit<AdjustmentComparison, 'group'>;

const said = ({ at, parameter, amount, unit }: Adjustment) => ({ at, parameter, amount, unit });

/**
 * Sets the rides before each adjustment against those after it, in order of time. Adjustments with no judged shift between them share their before and
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
    return group.adjustments.map((made) => ({
      ...(rows.get(made) ?? { ...NOT_JUDGED, ...said(made), before, after }),
      group: i,
    }));
  });
}

interface ComparedOn {
  readonly cassetteLength: number;
  readonly beganMs: number;
}

/** Compares one group of adjustments; each of them is then told by what it was. */
function compareGroup(
  rides: readonly RiddenFor[],
  all: AdjustmentPeriods,
  group: number,
  { cassetteLength, beganMs }: ComparedOn,
): (made: Adjustment) => Row {
  const { groups, periods } = all;
  const [earlier, later] = [sinceItBegan(periods[group], beganMs), untilItBegan(periods[group + 1], beganMs)];
  const compare = comparePeriods([earlier, later], rides, cassetteLength);
  const skipping = compareSkips(rides, groups, group, cassetteLength);
  const next = groups[group + 1]?.adjustments ?? [];
  return (made) => {
    const own = compare(made);
    const follows = next.find(({ parameter }) => parameter === made.parameter) ?? next.at(0);
    return {
      ...{ ...said(made), ...own },
      skipping: wears(made.parameter) ? skipping : null,
      together: tells(own) ? null : turnsTogether(rides, all, group, { cassetteLength, beganMs }),
      followedBy: follows ? { at: follows.at, parameter: follows.parameter, amount: follows.amount } : null,
      sharedPeriod: groups[group].adjustments.length > 1,
      cancelledOut: false,
      leftOut: {
        before: periods[group].shifts.length - earlier.shifts.length,
        after: periods[group + 1].shifts.length - later.shifts.length,
      },
    };
  };
}

/** Whether a comparison tells what an adjustment did. */
const tells = ({ probabilityBetter, cameBack, wentOnGrowing, oppositeWays }: PeriodsComparison): boolean =>
  isDecided(probabilityBetter) || cameBack !== null || wentOnGrowing !== null || oppositeWays !== null;

/** What the turns that end with a group did together; null where it is not the last of several, or where all shifts hide what they did. */
function turnsTogether(
  rides: readonly RiddenFor[],
  { groups, periods }: AdjustmentPeriods,
  group: number,
  { cassetteLength, beganMs }: ComparedOn,
): TurnsTogether | null {
  const turns = turnsUpTo(groups, group);
  if (!turns) return null;
  const riding = [
    sinceItBegan(periods[turns.first], beganMs),
    untilItBegan(ridingAfter(turns, groups, periods), beganMs),
  ] as const;
  const compared = comparePeriods(riding, rides, cassetteLength)(groups[group].adjustments[0]);
  if (compared.cameBack || compared.wentOnGrowing || compared.oppositeWays) return null;
  const { before, after, endCog, probabilityBetter, shiftsStillNeeded } = compared;
  const fromAt = groups[turns.first].adjustments[0].at;
  return { fromAt, before, after, endCog, probabilityBetter, shiftsStillNeeded };
}
