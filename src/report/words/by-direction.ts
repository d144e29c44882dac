import { troubleOf } from '../../adjustments/trouble-of.ts';
import { figure } from '../../numeric/figure.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import type { AdjustmentReport } from '../adjustment-report-schema.ts';
import { indexing } from './what-all-hides.ts';

type Compared = Pick<AdjustmentReport, 'parameter' | 'cogs'>;

/** Trouble of the shifts of one direction. */
function countOf({ cogs }: Pick<Compared, 'cogs'>, way: Direction, when: 'before' | 'after') {
  const counts = cogs.filter(({ direction }) => direction === way).map((cog) => troubleOf(cog[when]));
  const sum = (what: 'trouble' | 'shifts'): number => counts.reduce((total, count) => total + count[what], 0);
  return { trouble: sum('trouble'), shifts: sum('shifts') };
}

/**
 * Before and after of what moves the guide pulley against every cog alike, for each direction: too little or too much of it spoils the one and leaves the
 * other as it was, and all shifts together would water that down. Null for other work, and where no shift went wrong or a direction lacks shifts.
 */
export function byDirection(compared: Compared): string | null {
  if (!indexing.includes(compared.parameter)) return null;
  const ways = (['to-larger', 'to-smaller'] as const).map((way) => ({
    before: countOf(compared, way, 'before'),
    after: countOf(compared, way, 'after'),
  }));
  const counts = ways.flatMap(({ before, after }) => [before, after]);
  if (counts.some(({ shifts }) => shifts === 0) || counts.every(({ trouble }) => trouble === 0)) return null;
  const of = ({ trouble, shifts }: { trouble: number; shifts: number }): string =>
    `${figure(trouble)} of ${figure(shifts)}`;
  const [larger, smaller] = ways;
  return `To larger cogs ${of(larger.before)} went wrong before and ${of(larger.after)} after, to smaller ${of(smaller.before)} and ${of(smaller.after)}.`;
}
