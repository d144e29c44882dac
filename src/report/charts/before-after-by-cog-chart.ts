import { type ScaleBand, type ScaleLinear, scaleBand, scaleLinear } from 'd3-scale';
import { directions } from '../../cogs/directions.ts';
import { SAY_LITTLE } from '../../diagnosis/fewest-shifts.ts';
import { figure } from '../../numeric/figure.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import { type BeforeAfterByCog, teethOf } from '../cog-trouble.ts';
import { rateWithInterval } from '../words/number-words.ts';
import {
  type ChartSize,
  type ChartSvg,
  drawBottomAxis,
  drawEmptyNote,
  drawLeftAxis,
  type PlotArea,
  readsAs,
  startChart,
} from './chart-frame.ts';
import { drawLegend, type LegendEntry, legendHeightPx } from './chart-legend.ts';
import { COUNT_ROW_PX, type CountRow, drawCountRows, eventRows, judgedRow, rowLegend } from './cog-count-rows.ts';
import { directionShape } from './mark-shapes.ts';
import { cutLegend, drawRateMarks } from './rate-marks.ts';
import { topRate } from './top-rate.ts';

const periods = ['before', 'after'] as const;
const panelName: Readonly<Record<Direction, string>> = {
  'to-larger': 'To larger cogs: trouble, % of judged shifts',
  'to-smaller': 'To smaller cogs: trouble, % of judged shifts',
};
const legend: readonly LegendEntry[] = [
  { words: 'hollow: before', className: 'to-larger before', path: directionShape['to-larger'] },
  { words: 'filled: after', className: 'to-larger', path: directionShape['to-larger'] },
  { words: 'bar: 95 % interval', className: 'interval quiet', path: 'M0,-7V7' },
  { words: 'dashed: of before', className: 'interval quiet dashed', path: 'M0,-7V7' },
  { words: `faint: under ${SAY_LITTLE} shifts`, className: 'to-larger few', path: directionShape['to-larger'] },
];

const NAME_PX = 30;
const AXIS_PX = 44;
const PLOT_PX = 150;

/** Rows under the panel of one direction: judged before and after, then what moved unasked that way in either time. */
function panelRows({ before, after }: BeforeAfterByCog, direction: Direction): CountRow[] {
  const beside = periods.flatMap((name) => {
    const cogs = { before, after }[name].filter((cog) => cog.direction === direction);
    return eventRows(cogs).map(({ reads, ...row }) => ({
      ...row,
      name,
      reads:
        reads &&
        ((teeth: number, count: number) => `${name === 'before' ? 'Before' : 'After'}: ${reads(teeth, count)}`),
    }));
  });
  return [judgedRow(before, direction, 'before'), judgedRow(after, direction), ...beside];
}

const rowsOf = (data: BeforeAfterByCog): CountRow[] => directions.flatMap((direction) => panelRows(data, direction));

/** The legend, each kind of row named once. */
function entriesOf(data: BeforeAfterByCog, top: number): LegendEntry[] {
  const rows = new Map(rowLegend(rowsOf(data)).map((entry) => [entry.words, entry]));
  return [...legend, ...cutLegend([...data.before, ...data.after], top), ...rows.values()];
}

/** Height that the drawing needs, px. */
export const beforeAfterHeightPx = (data: BeforeAfterByCog, widthPx: number): number =>
  legendHeightPx(entriesOf(data, topRate([...data.before, ...data.after])), widthPx) +
  directions.length * (NAME_PX + PLOT_PX + AXIS_PX) +
  rowsOf(data).length * COUNT_ROW_PX;

/**
 * Draws the trouble of shifts onto each cog before an adjustment (hollow, dashed) and after it (filled), one direction under the
 * other on axes of one height. Under each stands how many were judged in either time. Cogs onto which nothing was seen in
 * either are left out.
 */
export function drawBeforeAfterByCog(svg: ChartSvg, data: BeforeAfterByCog, size: ChartSize): void {
  startChart(svg, size);
  const rows = [...data.before, ...data.after];
  const seen = rows.filter(({ shifts, ghostShifts = 0 }) => shifts + ghostShifts > 0);
  const top = topRate(rows);
  const entries = entriesOf(data, top);
  drawLegend(svg, entries, size.widthPx);
  let panelTop = legendHeightPx(entries, size.widthPx);
  const spare = size.heightPx - beforeAfterHeightPx(data, size.widthPx);
  const plotPx = Math.max(40, PLOT_PX + spare / directions.length);
  for (const direction of directions) {
    const counts = panelRows(data, direction);
    const area: PlotArea = {
      left: 66,
      right: size.widthPx - 8,
      top: panelTop + NAME_PX,
      bottom: panelTop + NAME_PX + plotPx,
    };
    const x = scaleBand(teethOf(seen).map(String), [area.left, area.right]).padding(0.15);
    const y = scaleLinear([0, top], [area.bottom, area.top]).clamp(true);
    drawLeftAxis(svg, area, y, panelName[direction], (axis) => axis.ticks(5, '.0%'));
    drawBottomAxis(svg, area, x, 'Onto cog, teeth (towards the spokes to the right)');
    if (seen.length === 0) drawEmptyNote(svg, area, 'No shift was judged');
    for (const period of periods) drawPeriod(svg, data, { direction, period, x, y });
    drawCountRows(svg, counts, (teeth) => middle(x, teeth, 0.5), area.bottom + 50);
    panelTop = area.bottom + AXIS_PX + counts.length * COUNT_ROW_PX;
  }
}

/** A place within a cog's band, from 0 (left) to 1; undefined for a cog that is left out. */
function middle(x: ScaleBand<string>, teeth: number, share: number): number | undefined {
  const left = x(String(teeth));
  return left === undefined ? undefined : left + x.bandwidth() * share;
}

/** What one series of points is drawn by. */
interface Series {
  readonly direction: Direction;
  readonly period: (typeof periods)[number];
  readonly x: ScaleBand<string>;
  readonly y: ScaleLinear<number, number>;
}

function drawPeriod(svg: ChartSvg, data: BeforeAfterByCog, { direction, period, x, y }: Series): void {
  const rated = data[period].filter((cog) => cog.direction === direction && cog.troubleRate !== null);
  const marks = drawRateMarks(svg, rated, y, {
    className: ({ shifts }) =>
      `${direction}${period === 'before' ? ' before' : ''}${shifts < SAY_LITTLE ? ' few' : ''}`,
    x: ({ teeth }) => middle(x, teeth, period === 'before' ? 0.25 : 0.75) ?? 0,
    point: () => directionShape[direction],
  });
  const when = period === 'before' ? 'Before' : 'After';
  readsAs(
    marks,
    (cog) =>
      `${when}, onto ${cog.teeth} teeth ${direction}: ${rateWithInterval(cog)} of ${figure(cog.shifts)} judged shifts`,
  );
}
