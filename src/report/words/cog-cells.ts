import { SAY_LITTLE } from '../../diagnosis/fewest-shifts.ts';
import { figure } from '../../numeric/figure.ts';
import type { CogReport } from '../report-schema.ts';

/** Title of the tables by cog and direction. */
export const COGS_TITLE = 'Shifts by cog and direction, all rides';
/** What their rate is. */
export const TROUBLE_MEANING =
  'Trouble is the share of judged shifts that were late, missed or settled beyond the cog asked for.';
/** Titles of their columns; each report adds one of its own at the end. */
export const cogTitles = ['Onto cog', 'Judged', 'Late', 'Missed', 'Over', 'Ghost', 'Trouble', '95 % range'] as const;

/** A cog's row under `cogTitles`; a dash where no shift was judged, and a word where its rate tells nothing. */
interface CogCells {
  readonly cells: readonly string[];
  /** Empty where enough shifts were judged. */
  readonly doubt: '' | 'not used' | 'too few to tell';
}

const whole = (share: number): string => String(Math.round(share * 100));

/** The row of a cog in a written table. */
export function cogCells(cog: CogReport): CogCells {
  const { teeth, shifts, late, missed, overshot, ghostShifts, troubleRate, low, high } = cog;
  const rate = troubleRate === null ? ['-', '-'] : [`${whole(troubleRate)} %`, `${whole(low)} to ${whole(high)} %`];
  return {
    cells: [String(teeth), ...[shifts, late, missed, overshot, ghostShifts].map(figure), ...rate],
    doubt: shifts === 0 ? 'not used' : shifts < SAY_LITTLE ? 'too few to tell' : '',
  };
}
