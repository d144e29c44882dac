import { sum } from 'd3-array';
import type { TroubleCount } from '../../adjustments/compare-rates.ts';
import { troubleOf } from '../../adjustments/trouble-of.ts';
import { figure } from '../../numeric/figure.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import type { AdjustmentReport } from '../adjustment-report-schema.ts';
import { indexing } from './what-all-hides.ts';

type Compared = Pick<AdjustmentReport, 'parameter' | 'cogs'>;

/** Trouble of the shifts of one direction. */
function countOf({ cogs }: Pick<Compared, 'cogs'>, way: Direction, when: 'before' | 'after'): TroubleCount {
  const counts = cogs.filter(({ direction }) => direction === way).map((cog) => troubleOf(cog[when]));
  return { trouble: sum(counts, ({ trouble }) => trouble), shifts: sum(counts, ({ shifts }) => shifts) };
}

/** How the shifts of one direction went before and after an adjustment. */
interface DirectionCompared {
  readonly direction: Direction;
  readonly before: TroubleCount;
  readonly after: TroubleCount;
}

/**
 * Before and after of what moves the guide pulley against every cog alike, for each direction: too little or too much of it spoils the one and leaves the
 * other as it was, and all shifts together would water that down. Null for other work, and where no shift went wrong or a direction lacks shifts.
 */
export function comparedByDirection(compared: Compared): [DirectionCompared, DirectionCompared] | null {
  if (!indexing.includes(compared.parameter)) return null;
  const of = (direction: Direction): DirectionCompared => ({
    direction,
    before: countOf(compared, direction, 'before'),
    after: countOf(compared, direction, 'after'),
  });
  const ways: [DirectionCompared, DirectionCompared] = [of('to-larger'), of('to-smaller')];
  const counts = ways.flatMap(({ before, after }) => [before, after]);
  return counts.some(({ shifts }) => shifts === 0) || counts.every(({ trouble }) => trouble === 0) ? null : ways;
}

/** The same in a sentence. */
export function byDirection(compared: Compared): string | null {
  const ways = comparedByDirection(compared);
  if (!ways) return null;
  const of = ({ trouble, shifts }: TroubleCount): string => `${figure(trouble)} of ${figure(shifts)}`;
  const [larger, smaller] = ways;
  return `To larger cogs ${of(larger.before)} went wrong before and ${of(larger.after)} after, to smaller ${of(smaller.before)} and ${of(smaller.after)}.`;
}
