import { scaleBand, scaleLinear } from 'd3-scale';
import { directions } from '../../cogs/directions.ts';
import { SAY_LITTLE } from '../../diagnosis/fewest-shifts.ts';
import { figure } from '../../numeric/figure.ts';
import { type CogTrouble, teethOf } from '../cog-trouble.ts';
import { rateWithInterval } from '../words/number-words.ts';
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
import { COUNT_ROW_PX, countRows, drawCountRows, eventRows, rowLegend } from './cog-count-rows.ts';
import { directionShape } from './mark-shapes.ts';
import { cutLegend, drawRateMarks } from './rate-marks.ts';
import { topRate } from './top-rate.ts';

const legend: readonly LegendEntry[] = [
  { words: 'to larger cogs', className: 'to-larger', path: directionShape['to-larger'] },
  { words: 'to smaller cogs', className: 'to-smaller', path: directionShape['to-smaller'] },
  { words: 'bar: 95 % interval', className: 'interval quiet', path: 'M0,-7V7' },
  { words: `faint: under ${SAY_LITTLE} shifts`, className: 'to-larger few', path: directionShape['to-larger'] },
];

/** What the drawing needs beyond its usual height for marks of lost chains and ghost shifts, px. */
export const eventRowsPx = (cogs: readonly CogTrouble[]): number => eventRows(cogs).length * COUNT_ROW_PX;

/**
 * Draws how often shifts onto each cog were late, missed or overshot, by direction, as points with 95 % intervals; cogs
 * with few judged shifts faint, those with none without a point. Under the axis stands how many were judged, and marks
 * where chains were lost or moved unasked.
 */
export function drawTroubleByCog(svg: ChartSvg, cogs: readonly CogTrouble[], size: ChartSize): void {
  startChart(svg, size);
  const top = topRate(cogs);
  const rows = countRows(cogs);
  const entries = [...legend, ...cutLegend(cogs, top), ...rowLegend(rows)];
  const bottom = 44 + rows.length * COUNT_ROW_PX;
  const area = legendThenPlot(svg, entries, size, { left: 66, right: 8, bottom });
  const x = scaleBand(teethOf(cogs).map(String), [area.left, area.right]).padding(0.15);
  const y = scaleLinear([0, top], [area.bottom, area.top]).clamp(true);
  drawLeftAxis(svg, area, y, 'Trouble, % of judged shifts', (axis) => axis.ticks(5, '.0%'));
  drawBottomAxis(svg, area, x, 'Onto cog, teeth (towards the spokes to the right)');
  if (cogs.every((cog) => cog.shifts === 0)) drawEmptyNote(svg, area, 'No shift was judged');

  const left = (teeth: number): number => x(String(teeth)) ?? 0;
  const marks = drawRateMarks(
    svg,
    cogs.filter((cog) => cog.troubleRate !== null),
    y,
    {
      className: (cog) => `${cog.direction}${cog.shifts < SAY_LITTLE ? ' few' : ''}`,
      x: (cog) => left(cog.teeth) + (x.bandwidth() * (directions.indexOf(cog.direction) + 0.5)) / 2,
      point: (cog) => directionShape[cog.direction],
    },
  );
  readsAs(
    marks,
    (cog) =>
      `Onto ${cog.teeth} teeth ${cog.direction}: ${rateWithInterval(cog)} of ${figure(cog.shifts)} judged shifts`,
  );
  drawCountRows(svg, rows, (teeth) => left(teeth) + x.bandwidth() / 2, area.bottom + 50);
}
