import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { adjustmentPeriods } from '../../src/adjustments/adjustment-periods.ts';
import { withoutCancelled } from '../../src/adjustments/cancelled-out.ts';
import type { RiddenFor } from '../../src/adjustments/part-of-ride.ts';
import { tallyCogs } from '../../src/cogs/tally-cogs.ts';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { cogShiftsReport } from '../../src/report/cog-report.ts';
import type { CogReport } from '../../src/report/report-schema.ts';

/** Tallies of one period between adjustments. `from` and `to` are ISO times; null: open to that side. */
export interface PeriodTallies {
  readonly from: string | null;
  readonly to: string | null;
  readonly cogs: readonly CogReport[];
}

/** The per-cog tallies of each period between adjustments, the earliest first; one open period without adjustments. What was taken back with no ride between parts nothing. */
export function cogsByPeriod(
  rides: readonly RiddenFor[],
  adjustments: readonly Adjustment[],
  bike: Bike,
): PeriodTallies[] {
  const { groups, periods } = adjustmentPeriods(rides, withoutCancelled(adjustments, rides));
  const iso = (ms: number | undefined): string | null => (ms === undefined ? null : new Date(ms).toISOString());
  return periods.map(({ shifts, ghostShifts }, i) => {
    const events = { shifts, ghostShifts, chainDrops: [], skips: [], pedallingSByCog: new Float64Array() };
    return {
      from: iso(groups[i - 1]?.lastMs),
      to: iso(groups[i]?.firstMs),
      cogs: tallyCogs([events], bike.cassette.length).map((tally) => cogShiftsReport(tally, bike)),
    };
  });
}
