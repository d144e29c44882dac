import type { ScaleLinear } from 'd3-scale';
import type { BaseType, Selection } from 'd3-selection';
import type { ChartSvg } from './chart-frame.ts';
import type { LegendEntry } from './chart-legend.ts';

/** A rate of trouble with its interval. */
interface Rate {
  readonly troubleRate: number | null;
  readonly low: number;
  readonly high: number;
}

const arrowHead = 'M-4,5L0,-1L4,5';

/** What the arrow head of an interval that the axis cuts off means; none where every interval fits below `top`. */
export const cutLegend = (rows: readonly Rate[], top: number): LegendEntry[] =>
  rows.some(({ troubleRate, high }) => troubleRate !== null && high > top)
    ? [{ words: 'arrow: reaches further up', className: 'interval quiet', path: 'M0,7V-6M-4,0L0,-6L4,0' }]
    : [];

/** How the mark of one datum looks: its class, its place along the axis, the path of its point about the origin. */
interface MarkLook<R extends Rate> {
  readonly className: (row: R) => string;
  readonly x: (row: R) => number;
  readonly point: (row: R) => string;
}

/** Draws each rate as a point on its interval, which ends in an arrow head where it reaches beyond the axis. Returns the marks, to be given their readings. */
export function drawRateMarks<R extends Rate>(
  svg: ChartSvg,
  rows: readonly R[],
  y: ScaleLinear<number, number>,
  { className, x, point }: MarkLook<R>,
): Selection<BaseType | SVGGElement, R, SVGGElement, unknown> {
  const marks = svg
    .append('g')
    .selectAll('g')
    .data(rows)
    .join('g')
    .attr('class', (row) => `mark ${className(row)}`)
    .attr('transform', (row) => `translate(${x(row)},0)`);
  marks
    .append('path')
    .attr('class', 'interval')
    .attr('d', (row) => `M0,${y(row.low)}V${y(row.high)}`);
  const top = Math.max(...y.domain());
  marks
    .filter(({ high }) => high > top)
    .append('path')
    .attr('class', 'interval is-cut')
    .attr('transform', `translate(0,${y(top)})`)
    .attr('d', arrowHead);
  marks
    .append('path')
    .attr('class', 'point')
    .attr('transform', (row) => `translate(0,${y(row.troubleRate ?? 0)})`)
    .attr('d', point);
  return marks;
}
