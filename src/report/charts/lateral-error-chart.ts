import { format } from 'd3-format';
import { scaleBand, scaleLinear } from 'd3-scale';
import { area as areaShape, line } from 'd3-shape';
import { signedMm } from '../words/number-words.ts';
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

/** Lateral error of the guide pulley on one cog, mm, inboard positive, with its 95 % interval. */
interface CogLateralError {
  readonly teeth: number;
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

const dot = 'M0,-4A4,4,0,1,1,0,4A4,4,0,1,1,0,-4Z';
const legend: readonly LegendEntry[] = [
  { words: 'likeliest error', className: 'actual point', path: dot },
  { words: '95 % band', className: 'band', path: 'M-7,-5H7V5H-7Z' },
  { words: 'no error', className: 'zero', path: 'M-8,0H8' },
];

/** A tick of the error, with its sign where it has one: `+0.5`, `0`, `−1.0`. */
const millimetres = (value: number): string => (value === 0 ? '0' : format('+.1f')(value));

/** Draws how far the guide pulley is thought to stand from each cog's middle, as a line with its 95 % band. */
export function drawLateralError(svg: ChartSvg, cogs: readonly CogLateralError[], size: ChartSize): void {
  startChart(svg, size);
  const area = legendThenPlot(svg, legend, size, { left: 44, right: 8, bottom: 46 });
  const reach = 1.1 * Math.max(0.5, ...cogs.flatMap((cog) => [Math.abs(cog.low), Math.abs(cog.high)]));
  const x = scaleBand(
    cogs.map((cog) => String(cog.teeth)),
    [area.left, area.right],
  ).padding(0.15);
  const y = scaleLinear([-reach, reach], [area.bottom, area.top]);
  const middle = (cog: CogLateralError): number => (x(String(cog.teeth)) ?? 0) + x.bandwidth() / 2;
  drawLeftAxis(svg, area, y, 'Lateral error, mm (+ inboard, - outboard)', (axis) =>
    axis.ticks(6).tickFormat(millimetres),
  );
  drawBottomAxis(svg, area, x, 'Cog, teeth (towards the spokes to the right)');
  if (cogs.length === 0) drawEmptyNote(svg, area, 'Not known');
  svg
    .append('path')
    .attr('class', 'band')
    .attr(
      'd',
      areaShape<CogLateralError>()
        .x(middle)
        .y0((cog) => y(cog.low))
        .y1((cog) => y(cog.high))(cogs),
    );
  svg
    .append('path')
    .attr('class', 'zero')
    .attr('d', `M${area.left},${y(0)}H${area.right}`);
  svg
    .append('path')
    .attr('class', 'trend-line')
    .attr('d', line<CogLateralError>(middle, (cog) => y(cog.mean))(cogs));
  const marks = svg
    .append('g')
    .selectAll('g')
    .data(cogs)
    .join('g')
    .attr('class', 'mark actual')
    .attr('transform', (cog) => `translate(${middle(cog)},${y(cog.mean)})`);
  marks.append('path').attr('class', 'point').attr('d', dot);
  readsAs(
    marks,
    (cog) => `${cog.teeth} teeth: ${signedMm(cog.mean)}, between ${signedMm(cog.low)} and ${signedMm(cog.high)}`,
  );
}
