import type { TroubleTally } from '../cogs/trouble-tally.ts';
import type { PeriodReport } from './adjustment-report-schema.ts';
import { roundOrNull, roundTo } from './round-to.ts';

/** A tally for the report: rounded; `troubleRate` is null with no judged shift. */
export function tallyReport(tally: TroubleTally): PeriodReport {
  return {
    shifts: tally.shifts,
    late: tally.late,
    missed: tally.missed,
    overshot: tally.overshot,
    ghostShifts: tally.ghostShifts,
    troubleRate: roundOrNull(tally.troubleRate, 4),
    low: roundTo(tally.low, 4),
    high: roundTo(tally.high, 4),
  };
}
