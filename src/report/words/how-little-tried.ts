import { sum } from 'd3-array';
import { SAY_LITTLE } from '../../diagnosis/fewest-shifts.ts';
import { counted } from '../../numeric/counted.ts';
import { listed } from '../../numeric/listed.ts';
import type { SpokenOf } from './spoken-of.ts';

/** What keeps a bike whose shifts went well from being surer: end cogs that were hardly used, to append; empty where none were. */
export function hardlyTried({ bike: { cassette }, cogs = [] }: SpokenOf): string {
  const judged = [cassette.at(-1), cassette[0]].map((teeth) => ({
    teeth,
    shifts: sum(
      cogs.filter((cog) => cog.teeth === teeth),
      ({ shifts }) => shifts,
    ),
  }));
  const few = judged.filter(({ shifts }) => cogs.length > 0 && shifts < SAY_LITTLE);
  const words = few.map(({ teeth, shifts }) =>
    shifts === 0 ? `no shift onto the ${teeth}` : `only ${counted(shifts, 'shift')} onto the ${teeth}`,
  );
  if (few.length === 0) return '';
  return `; ${listed(words)} could be judged, so of ${few.length > 1 ? 'their limits' : 'its limit'} hardly anything is known`;
}

/** What is said first where no fault stands out: that nothing at all went wrong, where that is so. */
export function nothingWrong({ diagnosis: { weighed }, cogs = [] }: SpokenOf): string {
  const trouble = sum(cogs, ({ late, missed, overshot }) => late + missed + overshot);
  return cogs.length > 0 && trouble + weighed.events === 0
    ? `Nothing went wrong in ${counted(weighed.judgedShifts, 'judged shift')}, and no fault stands out`
    : 'No fault stands out';
}
