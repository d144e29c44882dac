import { scaleBand, scaleLinear } from 'd3-scale';
import { curveStepAfter, line } from 'd3-shape';
import {
  type ChartSize,
  type ChartSvg,
  drawBottomAxis,
  drawEmptyNote,
  leftAxisName,
  readsAs,
  startChart,
} from './chart-frame.ts';
import { type LegendEntry, legendThenPlot } from './chart-legend.ts';
import { drawLostSpells, type LostSpell } from './lost-spells.ts';
import { eventName, eventShape, type StripEventKind } from './mark-shapes.ts';

/** The cog from a moment on. `teeth` null: not known. */
export interface CogFrom {
  readonly timeS: number;
  readonly teeth: number | null;
}

/** Something that went wrong, at a cog, with the words for its reading. */
export interface StripEvent {
  readonly timeS: number;
  readonly teeth: number;
  readonly kind: StripEventKind;
  readonly words: string;
}

/** One ride: times in seconds since its start, runs in rising order. */
export interface RideStrip {
  readonly durationS: number;
  readonly cassette: readonly number[];
  readonly actual: readonly CogFrom[];
  readonly commanded: readonly CogFrom[];
  readonly lost: readonly LostSpell[];
  readonly events: readonly StripEvent[];
}

const kinds = Object.keys(eventShape) as StripEventKind[];

/** Draws which cog was asked for and which one the chain was on over the ride, with what went wrong marked on it. */
export function drawRideStrip(svg: ChartSvg, ride: RideStrip, size: ChartSize): void {
  startChart(svg, size);
  const legend = stripLegend(ride);
  const area = legendThenPlot(svg, legend, size, { left: 44, right: 22, bottom: 46 });
  const x = scaleLinear([0, Math.max(1, ride.durationS)], [area.left, area.right]);
  const y = scaleBand(ride.cassette.map(String), [area.bottom, area.top]);
  const level = (teeth: number): number => (y(String(teeth)) ?? area.bottom) + y.bandwidth() / 2;
  drawCogLevels(svg, ride.cassette, level, area);
  drawBottomAxis(svg, area, x, 'Time since the start, h:min', (axis) =>
    axis.tickValues(timeTicks(ride.durationS, area.right - area.left)).tickFormat((s) => clock(Number(s))),
  );
  if (ride.actual.every((run) => run.teeth === null) && ride.commanded.length === 0)
    drawEmptyNote(svg, area, 'The cog is not known anywhere in this ride');
  drawLostSpells(svg, ride.lost, x, area);
  const path = (runs: readonly CogFrom[]): string | null =>
    line<CogFrom>()
      .defined((run) => run.teeth !== null)
      .x((run) => Math.round(10 * x(run.timeS)) / 10)
      .y((run) => Math.round(10 * level(run.teeth ?? 0)) / 10)
      .curve(curveStepAfter)(closed(runs, ride.durationS));
  svg.append('path').attr('class', 'actual-line').attr('d', path(ride.actual));
  svg.append('path').attr('class', 'commanded-line').attr('d', path(ride.commanded));
  const marks = svg
    .append('g')
    .selectAll('g')
    .data(ride.events)
    .join('g')
    .attr('class', (event) => `mark event ${event.kind}`)
    .attr('transform', (event) => `translate(${x(event.timeS).toFixed(1)},${level(event.teeth).toFixed(1)})`);
  marks.append('path').attr('d', (event) => eventShape[event.kind]);
  readsAs(marks, (event) => event.words);
}

function stripLegend(ride: RideStrip): LegendEntry[] {
  const present = kinds.filter((kind) => ride.events.some((event) => event.kind === kind));
  return [
    { words: 'cog the chain was on', className: 'actual-line', path: 'M-8,0H8' },
    ...(ride.commanded.length > 0 ? [{ words: 'cog asked for', className: 'commanded-line', path: 'M-8,0H8' }] : []),
    ...(ride.lost.length > 0 ? [{ words: 'drive lost', className: 'lost-band', path: 'M-7,-6H7V6H-7Z' }] : []),
    ...present.map((kind) => ({ words: eventName[kind], className: `event ${kind}`, path: eventShape[kind] })),
  ];
}

function drawCogLevels(
  svg: ChartSvg,
  cassette: readonly number[],
  level: (teeth: number) => number,
  area: { left: number; right: number; top: number },
): void {
  const rows = svg.append('g').attr('class', 'axis').selectAll('g').data(cassette).join('g');
  rows
    .append('path')
    .attr('class', 'grid-line')
    .attr('d', (teeth) => `M${area.left},${level(teeth)}H${area.right}`);
  rows
    .append('text')
    .attr('x', area.left - 8)
    .attr('y', level)
    .attr('dy', '0.35em')
    .attr('text-anchor', 'end')
    .text((teeth) => teeth);
  leftAxisName(svg, area.top, 'Cog, teeth');
}

/** A run lasts until the next one; the last one until the end of the ride. A break in between stays a break. */
function closed(runs: readonly CogFrom[], durationS: number): CogFrom[] {
  return runs.flatMap((run, i) => {
    const next = runs[i + 1];
    if (run.teeth === null || (next && next.teeth !== null)) return [run];
    return [run, { timeS: next?.timeS ?? durationS, teeth: run.teeth }];
  });
}

function timeTicks(durationS: number, widthPx: number): number[] {
  const most = Math.max(2, Math.floor(widthPx / 60));
  const step = [60, 120, 300, 600, 900, 1800, 3600, 7200, 14400, 28800].find((s) => durationS / s <= most) ?? 86400;
  return Array.from({ length: Math.floor(durationS / step) + 1 }, (_, i) => i * step);
}

function clock(seconds: number): string {
  return `${Math.floor(seconds / 3600)}:${String(Math.floor(seconds / 60) % 60).padStart(2, '0')}`;
}
