import type { AdjustmentComparison } from '../adjustments/compare-adjustments.ts';
import type { SkipCount } from '../adjustments/count-skips.ts';
import { endCog } from '../adjustments/end-cog-count.ts';
import type { PartComparison } from '../adjustments/opposite-ways.ts';
import type { WentOnGrowing } from '../adjustments/went-on-growing.ts';
import type { Diagnosis } from '../diagnosis/diagnosis.ts';
import type { Bike } from '../drivetrain/bike.ts';
import type { AdjustmentReport } from './adjustment-report-schema.ts';
import { cogSkips } from './cog-skips.ts';
import { momentIso } from './moment-iso.ts';
import { roundTo } from './round-to.ts';
import { tallyReport } from './tally-report.ts';

/**
 * One adjustment's part of the report: what the rides before and after it show.
 *
 * @param verdict left out where none is drawn
 */
export function adjustmentReport(
  comparison: AdjustmentComparison,
  bike: Pick<Bike, 'cassette'>,
  verdict: Pick<Diagnosis, 'wrongWays' | 'helpedAgainst' | 'now'> | null = null,
): AdjustmentReport {
  return {
    at: comparison.at,
    parameter: comparison.parameter,
    amount: comparison.amount,
    unit: comparison.unit,
    before: tallyReport(comparison.before),
    after: tallyReport(comparison.after),
    cogs: comparison.cogs.map((row) => ({
      teeth: bike.cassette[row.cog],
      direction: row.direction,
      before: tallyReport(row.before),
      after: tallyReport(row.after),
      probabilityBetter: roundTo(row.probabilityBetter, 4),
    })),
    endCog: endCogReport(comparison.endCog, bike),
    skipping: skipReport(comparison.skipping, bike),
    probabilityBetter: roundTo(comparison.probabilityBetter, 4),
    shiftsStillNeeded: comparison.shiftsStillNeeded,
    together: togetherReport(comparison.together, bike),
    followedBy: comparison.followedBy && { ...comparison.followedBy },
    ...hiddenReport(comparison, bike, verdict?.now.setting === 'overdone'),
    wrongWayFor: faultOf(verdict?.wrongWays, comparison),
    helpedAgainst: faultOf(verdict?.helpedAgainst, comparison),
    group: comparison.group,
    sharedPeriod: comparison.sharedPeriod,
    cancelledOut: comparison.cancelledOut,
    leftOut: { ...comparison.leftOut },
  };
}

const faultOf = (entries: Diagnosis['wrongWays'] = [], { at, parameter }: AdjustmentComparison) =>
  entries.find((one) => one.at === at && one.parameter === parameter)?.fault ?? null;

type Hidden = Required<Pick<AdjustmentReport, 'cameBack' | 'wentOnGrowing' | 'oppositeWays'>>;

function hiddenReport(
  { cameBack, wentOnGrowing, oppositeWays }: AdjustmentComparison,
  { cassette }: Pick<Bike, 'cassette'>,
  overdone: boolean,
): Hidden {
  const part = ({ cogs, centreCog: _, ...own }: PartComparison) => ({
    ...own,
    teeth: cogs.map((cog) => cassette[cog]),
    probabilityBetter: roundTo(own.probabilityBetter, 4),
  });
  return {
    cameBack: cameBack && { at: momentIso(cameBack.fromMs, 0), until: cameBack.until, since: cameBack.since },
    wentOnGrowing: wentOnGrowing && growthReport(wentOnGrowing),
    oppositeWays: oppositeWays && {
      better: part(oppositeWays.better),
      worse: part(oppositeWays.worse),
      // where something was turned too far, some of it is taken back: that a setting between would not do is not said beside it
      noneCuresBoth: oppositeWays.noneCuresBoth && !overdone,
    },
  };
}

const growthReport = ({ firstBefore, lastBefore, firstAfter, lastAfter }: WentOnGrowing) => ({
  ...{ firstBefore, lastBefore, firstAfter, lastAfter },
});

const togetherReport = (
  compared: AdjustmentComparison['together'],
  bike: Pick<Bike, 'cassette'>,
): AdjustmentReport['together'] =>
  compared && {
    ...compared,
    before: tallyReport(compared.before),
    after: tallyReport(compared.after),
    endCog: endCogReport(compared.endCog, bike),
    probabilityBetter: roundTo(compared.probabilityBetter, 4),
  };

function endCogReport(
  compared: AdjustmentComparison['endCog'],
  { cassette }: Pick<Bike, 'cassette'>,
): NonNullable<AdjustmentReport['endCog']> | null {
  if (!compared) return null;
  const { end, before, after } = compared;
  return { teeth: cassette[endCog(end, cassette.length)], end, before: { ...before }, after: { ...after } };
}

function skipReport(
  compared: AdjustmentComparison['skipping'],
  { cassette }: Pick<Bike, 'cassette'>,
): AdjustmentReport['skipping'] {
  if (!compared) return null;
  const count = ({ skips, hours }: SkipCount): SkipCount => ({ skips, hours: roundTo(hours, 4) });
  return {
    ...compared,
    before: count(compared.before),
    after: count(compared.after),
    cogs: {
      before: compared.cogs.before.map((tally) => cogSkips(tally, cassette)),
      after: compared.cogs.after.map((tally) => cogSkips(tally, cassette)),
    },
    probabilityFewer: roundTo(compared.probabilityFewer, 4),
  };
}
