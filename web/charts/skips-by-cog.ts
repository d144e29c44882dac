import { select } from 'd3-selection';
import { drawSkipsByCog } from '../../src/report/charts/skips-by-cog-chart.ts';
import type { CogSkips } from '../../src/report/report-schema.ts';
import { describeSkipsByCog, SKIPS_TITLE, skipCells, skipTitles } from '../../src/report/words/skip-sentences.ts';
import type { Cell, ChartPlan } from './chart-plan.ts';

/** The columns of a saved table of skips. */
export const skipColumns = ['teeth', 'skips seen', 'pedalled, s', 'skips an hour', 'low (95 %)', 'high (95 %)'];

/** A cog's row under these columns. */
export const skipRow = ({ teeth, skips, pedallingS, perHour, low, high }: CogSkips): Cell[] => [
  teeth,
  skips,
  pedallingS,
  perHour,
  low,
  high,
];

interface SkipsByCog {
  readonly fileName: string;
  readonly cogs: readonly CogSkips[];
  /** Said before the chart's own summary. */
  readonly lead?: string;
}

/** Skips on each cog for the time pedalled on it, with intervals. */
export function skipsByCogPlan({ fileName, cogs, lead = '' }: SkipsByCog): ChartPlan {
  return {
    title: SKIPS_TITLE,
    summary: `${lead}${describeSkipsByCog(cogs)}`,
    fileName,
    table: {
      columns: skipColumns,
      rows: cogs.map(skipRow),
    },
    tableToRead: { columns: skipTitles, rows: cogs.map(skipCells) },
    heightPx: (widthPx) => (widthPx < 560 ? 380 : 330),
    draw: (svg, widthPx, heightPx) => drawSkipsByCog(select(svg), cogs, { widthPx, heightPx }),
  };
}
