import { directions } from '../cogs/directions.ts';
import { movesOnto, type TroubleTally, tallyTrouble } from '../cogs/trouble-tally.ts';
import type { Direction } from '../shifts/ride-events.ts';
import type { AdjustmentPeriod } from './adjustment-periods.ts';
import { probabilityBetter } from './compare-rates.ts';
import { troubleOf } from './trouble-of.ts';

/** Before against after for shifts onto one cog (cassette index) in one direction. */
export interface CogComparison {
  readonly cog: number;
  readonly direction: Direction;
  readonly before: TroubleTally;
  readonly after: TroubleTally;
  readonly probabilityBetter: number;
}

/** Each cog and direction of which anything was seen, before and after. */
export function compareCogs(
  before: AdjustmentPeriod,
  after: AdjustmentPeriod,
  cassetteLength: number,
): CogComparison[] {
  const rows: CogComparison[] = [];
  for (let cog = 0; cog < cassetteLength; cog++)
    for (const direction of directions) {
      const tally = (period: AdjustmentPeriod): TroubleTally => tallyTrouble(movesOnto(period, cog, direction));
      const row = { cog, direction, before: tally(before), after: tally(after) };
      if (row.before.shifts + row.after.shifts + row.before.ghostShifts + row.after.ghostShifts === 0) continue;
      rows.push({ ...row, probabilityBetter: probabilityBetter(troubleOf(row.before), troubleOf(row.after)) });
    }
  return rows;
}
