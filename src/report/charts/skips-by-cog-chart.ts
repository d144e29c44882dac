import { max } from 'd3-array';
import { scaleBand, scaleLinear } from 'd3-scale';
import type { CogSkips } from '../report-schema.ts';
import { isHardlyPedalled, skipsOnCog } from '../words/skip-sentences.ts';
import {
  type ChartSize,
  type ChartSvg,
  drawBottomAxis,
  drawEmptyNote,
  drawLeftAxis,
  readsAs,
  startChart,
} from './chart-frame.ts';
import { type LegendEntry, legendThenPlot } from './chart-legend.ts';
import { COUNT_ROW_PX, type CountRow, drawCountRows } from './cog-count-rows.ts';
import { eventShape } from './mark-shapes.ts';
import { cutLegend, drawRateMarks } from './rate-marks.ts';

const NONE_SEEN = 'M-4,0H4';

const legend: readonly LegendEntry[] = [
  { words: 'skips seen', className: 'event skip', path: eventShape.skip },
  { words: 'none seen', className: 'none', path: NONE_SEEN },
  { words: 'bar: 95 % interval', className: 'interval quiet', path: 'M0,-7V7' },
  { words: 'faint: too little to tell', className: 'event few', path: eventShape.skip },
];

/** Hours in the room under a cog: "0.4", "12". */
const hours = (seconds: number): string => (seconds / 3600).toFixed(seconds < 36_000 ? 1 : 0);

const countRows = (cogs: readonly CogSkips[]): CountRow[] => [
  {
    name: 'skips',
    className: 'event skip',
    path: eventShape.skip,
    counts: new Map(cogs.filter(({ skips }) => skips > 0).map(({ teeth, skips }) => [teeth, skips])),
  },
  {
    name: 'hours',
    className: '',
    path: '',
    counts: new Map(cogs.map(({ teeth, pedallingS }) => [teeth, pedallingS])),
    writes: (_, seconds) => hours(seconds),
  },
];

/** Upper end of the axis: over the intervals of all cogs but those hardly pedalled on, whose points alone count. */
function topPerHour(cogs: readonly CogSkips[]): number {
  const highs = max(cogs, (cog) => (isHardlyPedalled(cog) ? null : cog.high)) ?? 0;
  return Math.max(1, highs, max(cogs, ({ perHour }) => perHour) ?? 0) * 1.05;
}

/**
 * Draws how often the chain was seen to skip on each cog, an hour of pedalling on it, as points with 95 % intervals; cogs hardly pedalled
 * on faint, those not pedalled on without a point. Under the axis stand the skips and the hours.
 */
export function drawSkipsByCog(svg: ChartSvg, cogs: readonly CogSkips[], size: ChartSize): void {
  startChart(svg, size);
  const top = topPerHour(cogs);
  const rates = cogs.flatMap((cog) =>
    cog.perHour === null ? [] : [{ cog, troubleRate: cog.perHour, low: cog.low ?? 0, high: cog.high ?? 0 }],
  );
  const rows = countRows(cogs);
  const entries = [...legend, ...cutLegend(rates, top)];
  const area = legendThenPlot(svg, entries, size, { left: 66, right: 8, bottom: 44 + rows.length * COUNT_ROW_PX });
  const x = scaleBand(
    cogs.map(({ teeth }) => String(teeth)),
    [area.left, area.right],
  ).padding(0.15);
  const y = scaleLinear([0, top], [area.bottom, area.top]).clamp(true);
  drawLeftAxis(svg, area, y, 'Skips seen in an hour of pedalling on the cog', (axis) => axis.ticks(5));
  drawBottomAxis(svg, area, x, 'On cog, teeth (towards the spokes to the right)');
  if (cogs.every(({ skips }) => skips === 0)) drawEmptyNote(svg, area, 'No skip was seen');
  const middle = (teeth: number): number => (x(String(teeth)) ?? 0) + x.bandwidth() / 2;
  const marks = drawRateMarks(svg, rates, y, {
    className: ({ cog }) => `${cog.skips > 0 ? 'event skip' : 'none'}${isHardlyPedalled(cog) ? ' few' : ''}`,
    x: ({ cog }) => middle(cog.teeth),
    point: ({ cog }) => (cog.skips > 0 ? eventShape.skip : NONE_SEEN),
  });
  readsAs(marks, ({ cog }) => skipsOnCog(cog));
  drawCountRows(svg, rows, middle, area.bottom + 50);
}
