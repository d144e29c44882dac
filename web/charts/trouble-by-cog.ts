import { select } from 'd3-selection';
import { drawTroubleByCog, eventRowsPx } from '../../src/report/charts/trouble-by-cog-chart.ts';
import { describeTroubleByCog } from '../../src/report/words/cog-sentences.ts';
import type { ChartPlan } from './chart-plan.ts';
import { type CogRow, cogCells, cogColumns } from './cog-cells.ts';

interface TroubleByCog {
  readonly title: string;
  readonly fileName: string;
  readonly cogs: readonly CogRow[];
  /** Said before the chart's own summary. */
  readonly lead?: string;
}

/** Trouble onto each cog in each direction, with intervals. */
export function troubleByCogPlan({ title, fileName, cogs, lead = '' }: TroubleByCog): ChartPlan {
  return {
    title,
    summary: `${lead}${describeTroubleByCog(cogs)}`,
    fileName,
    table: { columns: cogColumns, rows: cogs.map(cogCells) },
    heightPx: (widthPx) => (widthPx < 560 ? 400 : 360) + eventRowsPx(cogs),
    draw: (svg, widthPx, heightPx) => drawTroubleByCog(select(svg), cogs, { widthPx, heightPx }),
  };
}
