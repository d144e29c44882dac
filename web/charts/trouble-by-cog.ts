import { select } from 'd3-selection';
import { describeTroubleByCog, drawTroubleByCog } from '../../src/report/charts/trouble-by-cog-chart.ts';
import type { CogReport } from '../api/answers.ts';
import type { Cell, ChartPlan } from './chart-plan.ts';

/** What a row of the chart needs of a cog's tally. */
export type CogRow = Pick<
  CogReport,
  'teeth' | 'direction' | 'shifts' | 'late' | 'missed' | 'overshot' | 'ghostShifts' | 'troubleRate' | 'low' | 'high'
>;

interface TroubleByCog {
  readonly title: string;
  readonly fileName: string;
  readonly cogs: readonly CogRow[];
  /** The same from before an adjustment. */
  readonly before?: readonly CogRow[];
  /** Said before the chart's own summary. */
  readonly lead?: string;
}

const cells = (cog: CogRow): Cell[] => [
  cog.teeth,
  cog.direction,
  cog.shifts,
  cog.late,
  cog.missed,
  cog.overshot,
  cog.ghostShifts,
  cog.troubleRate,
  cog.shifts > 0 ? cog.low : null,
  cog.shifts > 0 ? cog.high : null,
];
const columns = [
  'teeth',
  'direction',
  'judged shifts',
  'late',
  'missed',
  'overshot',
  'ghost shifts',
  'trouble rate',
  'low (95 %)',
  'high (95 %)',
];

/** Trouble onto each cog in each direction, with intervals; optionally against the time before an adjustment. */
export function troubleByCogPlan({ title, fileName, cogs, before = [], lead = '' }: TroubleByCog): ChartPlan {
  const compared = before.length > 0;
  return {
    title,
    summary: `${lead}${describeTroubleByCog(cogs)}`,
    fileName,
    table: {
      columns: compared ? ['period', ...columns] : columns,
      rows: compared
        ? [...before.map((cog) => ['before', ...cells(cog)]), ...cogs.map((cog) => ['after', ...cells(cog)])]
        : cogs.map(cells),
    },
    heightPx: (widthPx) => (widthPx < 560 ? 400 : 360),
    draw: (svg, widthPx, heightPx) => drawTroubleByCog(select(svg), cogs, { widthPx, heightPx }, before),
  };
}
