import type { CogTally } from '../cogs/cog-tally.ts';
import type { Bike } from '../drivetrain/bike.ts';
import type { CogReport } from './report-schema.ts';
import { roundOrNull, roundTo } from './round-to.ts';

/** One cog's tally in one direction, named by its teeth; `troubleRate` is null with no judged shift. */
export function cogReport(tally: CogTally, bike: Pick<Bike, 'cassette'>): CogReport {
  return {
    teeth: bike.cassette[tally.cog],
    direction: tally.direction,
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
