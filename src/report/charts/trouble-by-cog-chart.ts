import { scaleBand, scaleLinear } from 'd3-scale';
import { figure } from '../../numeric/figure.ts';
import { percent } from '../../numeric/percent.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import { FEW_SHIFTS } from '../few-shifts.ts';
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
import { directionShape } from './mark-shapes.ts';
import { cutLegend, drawRateMarks } from './rate-marks.ts';

/** Trouble of the shifts onto one cog in one direction. Fits a report's `cogs`. */
export interface CogTrouble {
  readonly teeth: number;
  readonly direction: Direction;
  readonly shifts: number;
  readonly troubleRate: number | null;
  readonly low: number;
  readonly high: number;
}

const directions: readonly Direction[] = ['to-larger', 'to-smaller'];
const directionPhrase: Readonly<Record<Direction, string>> = {
  'to-larger': 'from smaller cogs',
  'to-smaller': 'from larger cogs',
};
const legend: readonly LegendEntry[] = [
  { words: 'to larger cogs', className: 'to-larger', path: directionShape['to-larger'] },
  { words: 'to smaller cogs', className: 'to-smaller', path: directionShape['to-smaller'] },
  { words: 'bar: 95 % interval', className: 'interval quiet', path: 'M0,-7V7' },
  { words: `faint: under ${FEW_SHIFTS} shifts`, className: 'to-larger few', path: directionShape['to-larger'] },
];
const beforeLegend: LegendEntry = { words: 'before', className: 'before', path: directionShape['to-larger'] };

/**
 * Draws how often shifts onto each cog were late, missed or overshot, by direction, as points with 95 % intervals; cogs
 * with few judged shifts faint, those with none without a point. Under the axis stands how many were judged.
 *
 * @param before the same from before an adjustment, drawn grey beside it
 */
export function drawTroubleByCog(
  svg: ChartSvg,
  cogs: readonly CogTrouble[],
  size: ChartSize,
  before: readonly CogTrouble[] = [],
): void {
  startChart(svg, size);
  const rows = [...cogs, ...before];
  const top = topRate(rows);
  const entries = [...legend, ...(before.length > 0 ? [beforeLegend] : []), ...cutLegend(rows, top)];
  const area = legendThenPlot(svg, entries, size, { left: 66, right: 8, bottom: 74 });
  const teeth = [...new Set(cogs.map((cog) => cog.teeth))].sort((a, b) => a - b);
  const x = scaleBand(teeth.map(String), [area.left, area.right]).padding(0.15);
  const y = scaleLinear([0, top], [area.bottom, area.top]).clamp(true);
  drawLeftAxis(svg, area, y, 'Trouble, % of judged shifts', (axis) => axis.ticks(5, '.0%'));
  drawBottomAxis(svg, area, x, 'Onto cog, teeth (towards the spokes to the right)');
  if (cogs.every((cog) => cog.shifts === 0)) drawEmptyNote(svg, area, 'No shift was judged');

  const place = (cog: CogTrouble, faded: boolean): number => {
    const slots = before.length > 0 ? 4 : 2;
    const slot = directions.indexOf(cog.direction) * (slots / 2) + (slots === 4 && !faded ? 1 : 0);
    return (x(String(cog.teeth)) ?? 0) + (x.bandwidth() * (slot + 0.5)) / slots;
  };
  const drawSeries = (rows: readonly CogTrouble[], faded: boolean): void => {
    const rated = rows.filter((cog) => cog.troubleRate !== null);
    const marks = drawRateMarks(svg, rated, y, {
      className: (cog) => `${faded ? 'before' : cog.direction}${cog.shifts < FEW_SHIFTS ? ' few' : ''}`,
      x: (cog) => place(cog, faded),
      point: (cog) => directionShape[cog.direction],
    });
    readsAs(
      marks,
      (cog) =>
        `${faded ? 'Before, onto' : 'Onto'} ${cog.teeth} teeth ${cog.direction}: ${rateWithInterval(cog)} of ${figure(cog.shifts)} judged shifts`,
    );
  };
  drawSeries(before, true);
  drawSeries(cogs, false);
  drawCounts(svg, cogs, (cog) => (x(String(cog.teeth)) ?? 0) + x.bandwidth() / 2, area.bottom + 50);
}

/** Upper end of the axis: over the intervals of all cogs but those with few shifts, whose points alone count, so that they do not press the others flat. */
function topRate(cogs: readonly CogTrouble[]): number {
  const highs = cogs.filter((cog) => cog.shifts >= FEW_SHIFTS).map((cog) => cog.high);
  const points = cogs.map((cog) => cog.troubleRate ?? 0);
  return Math.min(1, Math.max(0.2, ...highs, ...points) * 1.05);
}

function drawCounts(svg: ChartSvg, cogs: readonly CogTrouble[], x: (cog: CogTrouble) => number, top: number): void {
  directions.forEach((direction, row) => {
    const y = top + row * 15;
    const line = svg.append('g').attr('class', `counts ${direction}`);
    line
      .append('path')
      .attr('class', 'point')
      .attr('transform', `translate(50,${y - 4}) scale(0.8)`)
      .attr('d', directionShape[direction]);
    line.append('text').attr('x', 2).attr('y', y).text('judged').attr('class', 'count-name');
    line
      .selectAll('text.count')
      .data(cogs.filter((cog) => cog.direction === direction))
      .join('text')
      .attr('class', 'count')
      .attr('x', x)
      .attr('y', y)
      .attr('text-anchor', 'middle')
      .text((cog) => cog.shifts);
  });
}

/** What the chart shows, in a sentence, for those who do not see it. */
export function describeTroubleByCog(cogs: readonly CogTrouble[]): string {
  const rated = cogs.filter((cog) => cog.troubleRate !== null && cog.shifts >= FEW_SHIFTS);
  if (rated.length === 0) return 'Too few judged shifts on any cog to tell.';
  const worst = rated.reduce((a, b) => ((b.troubleRate ?? 0) > (a.troubleRate ?? 0) ? b : a));
  if (!worst.troubleRate) return 'No trouble on any cog with enough judged shifts.';
  return `Most trouble: shifts onto ${worst.teeth} teeth ${directionPhrase[worst.direction]}, ${percent(worst.troubleRate)} of ${worst.shifts} judged.`;
}
