import type { AdjustmentComparison, PeriodTally } from '../adjustments/compare-adjustments.ts';
import type { Bike } from '../drivetrain/bike.ts';
import type { AdjustmentReport, PeriodReport } from './report-schema.ts';
import { roundTo } from './round-to.ts';

/** One adjustment's part of the report: what the rides before and after it show. */
export function adjustmentReport(comparison: AdjustmentComparison, bike: Pick<Bike, 'cassette'>): AdjustmentReport {
  return {
    at: comparison.at,
    parameter: comparison.parameter,
    amount: comparison.amount,
    unit: comparison.unit,
    before: period(comparison.before),
    after: period(comparison.after),
    cogs: comparison.cogs.map((row) => ({
      teeth: bike.cassette[row.cog],
      direction: row.direction,
      before: period(row.before),
      after: period(row.after),
      probabilityBetter: roundTo(row.probabilityBetter, 4),
    })),
    probabilityBetter: roundTo(comparison.probabilityBetter, 4),
    shiftsStillNeeded: comparison.shiftsStillNeeded,
    sharedPeriod: comparison.sharedPeriod,
  };
}

function period(tally: PeriodTally): PeriodReport {
  return {
    ...tally,
    troubleRate: tally.troubleRate === null ? null : roundTo(tally.troubleRate, 4),
    low: roundTo(tally.low, 4),
    high: roundTo(tally.high, 4),
  };
}
