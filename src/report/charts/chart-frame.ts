import { type Axis, axisBottom, axisLeft } from 'd3-axis';
import type { ScaleBand, ScaleLinear } from 'd3-scale';
import type { BaseType, Selection } from 'd3-selection';

/** The `<svg>` a chart draws into: `select(element)` of d3-selection, in a browser or in linkedom. */
export type ChartSvg = Selection<SVGSVGElement, unknown, null, undefined>;

/** Size of the drawing in CSS pixels. */
export interface ChartSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** The rectangle between the axes, in the drawing's pixels. */
export interface PlotArea {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

type Group = Selection<SVGGElement, unknown, null, undefined>;

/** Empties the `<svg>`, gives it its size and the class that `chartStyle` styles, so that a chart can be drawn again. */
export function startChart(svg: ChartSvg, { widthPx, heightPx }: ChartSize): void {
  svg.selectAll('*').remove();
  svg.attr('viewBox', `0 0 ${widthPx} ${heightPx}`).classed('chart', true);
}

/** Usual width of a letter in an axis name. */
const LETTER_PX = 6;

/** The axis of cogs or bars under the plot, with its name below it: in the middle, or further left where it would not fit there. */
export function drawBottomAxis<T extends string | number>(
  svg: ChartSvg,
  area: PlotArea,
  scale: ScaleBand<string> | ScaleLinear<number, number>,
  name: string,
  tune: (axis: Axis<T>) => Axis<T> = (axis) => axis,
): void {
  const axis = tune(axisBottom(scale as never) as unknown as Axis<T>).tickSizeOuter(0);
  (svg.append('g').attr('class', 'axis').attr('transform', `translate(0,${area.bottom})`) as Group).call(axis as never);
  const half = (name.length * LETTER_PX) / 2;
  const middle = Math.max(half, Math.min((area.left + area.right) / 2, area.right - half));
  axisName(svg, middle, area.bottom + 34, name);
}

/** The axis left of the plot with grid lines across it; its name stands above it, level, to be read without turning. */
export function drawLeftAxis(
  svg: ChartSvg,
  area: PlotArea,
  scale: ScaleLinear<number, number>,
  name: string,
  tune: (axis: Axis<number>) => Axis<number> = (axis) => axis,
): void {
  const axis = tune(axisLeft(scale as never) as unknown as Axis<number>).tickSizeOuter(0);
  const grid = tune(axisLeft(scale as never) as unknown as Axis<number>)
    .tickSize(area.left - area.right)
    .tickFormat(() => '');
  const at = `translate(${area.left},0)`;
  (svg.append('g').attr('class', 'grid').attr('transform', at) as Group).call(grid as never);
  (svg.append('g').attr('class', 'axis').attr('transform', at) as Group).call(axis as never);
  leftAxisName(svg, area.top, name);
}

/** The name of the axis left of a plot, above the plot's upper edge `topPx`. */
export function leftAxisName(svg: ChartSvg, topPx: number, name: string): void {
  svg
    .append('text')
    .attr('class', 'axis-name')
    .attr('x', 4)
    .attr('y', topPx - 10)
    .text(name);
}

/** A centred axis name. */
export function axisName(svg: ChartSvg, x: number, y: number, name: string): void {
  svg.append('text').attr('class', 'axis-name').attr('x', x).attr('y', y).attr('text-anchor', 'middle').text(name);
}

/** Words in the middle of an empty plot. */
export function drawEmptyNote(svg: ChartSvg, area: PlotArea, words: string): void {
  svg
    .append('text')
    .attr('class', 'empty-note')
    .attr('x', (area.left + area.right) / 2)
    .attr('y', (area.top + area.bottom) / 2)
    .attr('text-anchor', 'middle')
    .text(words);
}

/** Gives a mark its reading: the words that a pointer or a screen reader finds on it. */
export function readsAs<E extends BaseType, D>(
  marks: Selection<E, D, BaseType, unknown>,
  words: (datum: D) => string,
): void {
  marks.append('title').text(words);
}
