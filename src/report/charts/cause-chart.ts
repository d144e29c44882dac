import { scaleBand, scaleLinear } from 'd3-scale';
import { chance, percent } from '../../numeric/percent.ts';
import { type ChartSize, type ChartSvg, drawBottomAxis, readsAs, startChart } from './chart-frame.ts';

/** A cause with its name in words. `fault` is false for "nothing mis-set". */
export interface CauseBar {
  readonly name: string;
  readonly probability: number;
  readonly fault: boolean;
}

const ROW_PX = 22;

/** Height that the chart needs for this many causes. */
export function causeChartHeightPx(causes: number): number {
  return causes * ROW_PX + 52;
}

/** Draws the causes as bars, likeliest first, each with its name and its probability in figures. */
export function drawCauses(svg: ChartSvg, causes: readonly CauseBar[], size: ChartSize): void {
  startChart(svg, size);
  const nameWidth = Math.min(size.widthPx * 0.7, 16 + 6.6 * Math.max(0, ...causes.map((cause) => cause.name.length)));
  const area = { left: nameWidth, right: size.widthPx - 50, top: 4, bottom: size.heightPx - 48 };
  const x = scaleLinear([0, 1], [area.left, area.right]);
  const y = scaleBand(
    causes.map((cause) => cause.name),
    [area.top, area.bottom],
  ).padding(0.22);
  const steps = Math.round((area.right - area.left) / 70);
  drawBottomAxis<number>(svg, area, x, 'Probability, %', (axis) =>
    steps < 2 ? axis.tickValues([0, 1]).tickFormat(percent) : axis.ticks(steps, '.0%'),
  );
  const marks = svg
    .append('g')
    .selectAll('g')
    .data(causes)
    .join('g')
    .attr('class', (cause) => `mark ${cause.fault ? 'fault' : 'no-fault'}`)
    .attr('transform', (cause) => `translate(0,${y(cause.name) ?? 0})`);
  const middle = y.bandwidth() / 2;
  marks
    .append('text')
    .attr('class', 'bar-name')
    .attr('x', area.left - 8)
    .attr('y', middle)
    .attr('dy', '0.35em')
    .attr('text-anchor', 'end')
    .text((cause) => cause.name);
  marks
    .append('rect')
    .attr('class', 'bar')
    .attr('x', area.left)
    .attr('width', (cause) => Math.max(0.5, x(cause.probability) - area.left))
    .attr('height', y.bandwidth());
  marks
    .append('text')
    .attr('class', 'bar-value')
    .attr('x', (cause) => x(cause.probability) + 6)
    .attr('y', middle)
    .attr('dy', '0.35em')
    .text((cause) => chance(cause.probability));
  readsAs(marks, (cause) => `${cause.name}: ${chance(cause.probability)}`);
}
