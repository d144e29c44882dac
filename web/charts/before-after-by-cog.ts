import { select } from 'd3-selection';
import { beforeAfterHeightPx, drawBeforeAfterByCog } from '../../src/report/charts/before-after-by-cog-chart.ts';
import { describeBeforeAfterByCog } from '../../src/report/words/cog-sentences.ts';
import type { ChartPlan } from './chart-plan.ts';
import { type CogRow, cogCells, cogColumns } from './cog-cells.ts';

interface BeforeAfterPlan {
  readonly title: string;
  readonly fileName: string;
  readonly before: readonly CogRow[];
  readonly after: readonly CogRow[];
}

/** Trouble onto each cog before an adjustment against that after it, one direction under the other. */
export const beforeAfterByCogPlan = ({ title, fileName, before, after }: BeforeAfterPlan): ChartPlan => ({
  title,
  summary: describeBeforeAfterByCog({ before, after }),
  fileName,
  table: {
    columns: ['period', ...cogColumns],
    rows: [...before.map((cog) => ['before', ...cogCells(cog)]), ...after.map((cog) => ['after', ...cogCells(cog)])],
  },
  heightPx: (widthPx) => beforeAfterHeightPx({ before, after }, widthPx),
  draw: (svg, widthPx, heightPx) => drawBeforeAfterByCog(select(svg), { before, after }, { widthPx, heightPx }),
});
