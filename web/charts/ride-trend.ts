import { select } from 'd3-selection';
import { ridesBefore } from '../../src/report/chart-data/rides-before.ts';
import { drawRideTrend } from '../../src/report/charts/ride-trend-chart.ts';
import type { BikeSummary } from '../api/answers.ts';
import { day, dayAndTime, shortDay } from '../words/dates.ts';
import type { ChartPlan, ChartTable } from './chart-plan.ts';

interface Trend {
  readonly points: BikeSummary['trend'];
  readonly adjustments: readonly { readonly at: string; readonly words: string }[];
  readonly summary: string;
  readonly fileName: string;
}

/** Trouble ride by ride with the adjustments between them. */
export function rideTrendPlan({ points, adjustments, summary, fileName }: Trend): ChartPlan {
  const rides = points.map(({ at, shifts, troubleRate, low, high }) => ({
    label: shortDay(at),
    shifts,
    troubleRate,
    low: low ?? 0,
    high: high ?? 1,
  }));
  const starts = points.map(({ at }) => at);
  const marks = adjustments.map(({ at, words }) => ({
    beforeRide: ridesBefore(starts, at),
    words: `${words}, ${day(at)}`,
  }));
  const tableOf = (dated: (at: string) => string): ChartTable => ({
    columns: ['ride', 'judged shifts', 'trouble rate', 'low (95 %)', 'high (95 %)', 'adjusted before it'],
    rows: points.map(({ at, shifts, troubleRate, low, high }, i) => [
      dated(at),
      shifts,
      troubleRate,
      low,
      high,
      marks.flatMap(({ beforeRide, words }) => (beforeRide === i ? [words] : [])).join('; ') || null,
    ]),
  });
  return {
    title: 'Trouble ride by ride',
    summary,
    fileName,
    table: tableOf((at) => at),
    tableToRead: tableOf(dayAndTime),
    heightPx: () => 300,
    draw: (svg, widthPx, heightPx) => drawRideTrend(select(svg), { rides, adjustments: marks }, { widthPx, heightPx }),
  };
}
