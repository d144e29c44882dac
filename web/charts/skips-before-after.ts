import { select } from 'd3-selection';
import { drawSkipsBeforeAfter } from '../../src/report/charts/skips-by-cog-chart.ts';
import {
  describeSkipsBeforeAfter,
  SKIPS_MEANING,
  SKIPS_TITLE,
  type SkipsBeforeAfter,
  skipCells,
  skipTitles,
} from '../../src/report/words/skip-sentences.ts';
import type { ChartPlan } from './chart-plan.ts';
import { skipColumns, skipRow } from './skips-by-cog.ts';

interface SkipsBeforeAfterPlan {
  readonly fileName: string;
  /** What was replaced between. */
  readonly replaced: string;
  readonly skips: SkipsBeforeAfter;
}

const periods = ['before', 'after'] as const;

/** Skips on each cog on the parts before a replacement against those on the parts since. */
export const skipsBeforeAfterPlan = ({ fileName, replaced, skips }: SkipsBeforeAfterPlan): ChartPlan => ({
  title: `${SKIPS_TITLE}: ${replaced}`,
  summary: `${SKIPS_MEANING} ${describeSkipsBeforeAfter(skips)}`,
  fileName,
  table: {
    columns: ['period', ...skipColumns],
    rows: periods.flatMap((period) => skips[period].map((cog) => [period, ...skipRow(cog)])),
  },
  tableToRead: {
    columns: ['Period', ...skipTitles],
    rows: periods.flatMap((period) => skips[period].map((cog) => [period, ...skipCells(cog)])),
  },
  heightPx: (widthPx) => (widthPx < 560 ? 430 : 370),
  draw: (svg, widthPx, heightPx) => drawSkipsBeforeAfter(select(svg), skips, { widthPx, heightPx }),
});
