import { type AxisScale, axisBottom, axisLeft } from 'd3-axis';
import { scaleLinear, scaleLog } from 'd3-scale';
import {
  axisName,
  type ChartSize,
  type ChartSvg,
  leftAxisName,
  startChart,
} from '../../../src/report/charts/chart-frame.ts';
import { drawLegend, type LegendEntry, legendHeightPx } from '../../../src/report/charts/chart-legend.ts';
import { drawLostSpells } from '../../../src/report/charts/lost-spells.ts';
import { CLEAN_WITHIN_REVS, LATE_WITHIN_REVS } from '../../../src/shifts/turn-limits.ts';
import { drawMeasures, measuresHeightPx } from './draw-measures.ts';
import { drawReadings } from './draw-readings.ts';
import { AFTER_S, BEFORE_S, type Moment, type MomentSample } from './moment.ts';
import { linePath } from './moment-line.ts';

const dot = 'M0,-3A3,3,0,1,1,0,3A3,3,0,1,1,0,-3Z';
const wedge = 'M-5,-7H5L0,1Z';
const always: readonly LegendEntry[] = [
  { words: 'asked for', className: 'commanded-line', path: 'M-8,0H8' },
  { words: 'chain on', className: 'actual-line', path: 'M-8,0H8' },
  { words: 'by speed and cadence', className: 'ratio-dot', path: dot },
];
const judgedThere: LegendEntry = { words: 'judged to be there', className: 'judged', path: wedge };

/** Least distance at which the names of two turn limits can stand in the middle over their lines, px. */
const NAMES_APART_PX = 44;

/** Height of the cogs' part, px. */
const COG_HEIGHT = 170;

const band = 'M-7,-6H7V6H-7Z';
const inTime: LegendEntry = { words: 'in time to be clean', className: 'turns is-clean', path: band };
const stillLate: LegendEntry = { words: 'in time to be late, not missed', className: 'turns is-late', path: band };
const driveLost: LegendEntry = { words: 'drive lost', className: 'lost-band', path: band };

const legendOf = (moment: Moment, isShift: boolean): readonly LegendEntry[] => [
  ...always,
  ...(isShift && moment.cleanUntilS !== null ? [inTime] : []),
  // as it is drawn: where the late turns begin beyond the drawing there is no band of them
  ...(isShift && moment.cleanUntilS !== null && moment.cleanUntilS < AFTER_S && moment.lateUntilS !== null
    ? [stillLate]
    : []),
  ...(moment.lost.length > 0 ? [driveLost] : []),
  ...(moment.judgedAtS === null ? [] : [judgedThere]),
];

const topOf = (moment: Moment, widthPx: number, isShift: boolean): number =>
  legendHeightPx(legendOf(moment, isShift), widthPx) + (isShift ? 40 : 26);

/** Height that the drawing needs. */
export const momentHeightPx = (moment: Moment, widthPx: number, isShift: boolean): number =>
  topOf(moment, widthPx, isShift) + COG_HEIGHT + 26 + measuresHeightPx(moment) + 50;

/** Cogs that the moment touches, with one more on either side. */
function cogsInView({ cassette, samples }: Moment): readonly number[] {
  const seen = samples
    .flatMap((sample) => [sample.askedTeeth, sample.chainTeeth])
    .filter((teeth) => !Number.isNaN(teeth));
  const places = seen.map((teeth) => cassette.indexOf(teeth)).filter((place) => place >= 0);
  if (places.length === 0) return cassette;
  return cassette.slice(Math.max(0, Math.min(...places) - 1), Math.max(...places) + 2);
}

/** Where the cogs stand in the drawing, px: `x` of seconds, `y` of teeth. */
interface CogPlot {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly cogs: readonly number[];
  readonly x: (s: number) => number;
  readonly y: (teeth: number) => number;
}

/** Draws the cogs of the thirty seconds, with the crank turns that part clean, late and missed, and the measures below. */
export function drawMoment(svg: ChartSvg, moment: Moment, size: ChartSize, isShift: boolean): void {
  startChart(svg, size);
  drawLegend(svg, legendOf(moment, isShift), size.widthPx);
  const left = 44;
  const right = size.widthPx - 8;
  const top = topOf(moment, size.widthPx, isShift);
  const cogBottom = top + COG_HEIGHT;
  const x = scaleLinear([-BEFORE_S, AFTER_S], [left, right]);
  const cogs = cogsInView(moment);
  const y = scaleLog([cogs[0] * 0.95, cogs[cogs.length - 1] * 1.05], [cogBottom, top]).clamp(true);
  const plot = { left, right, top, cogs, x, y };

  if (isShift) drawTurns(svg, moment, x, top, cogBottom);
  drawCogRows(svg, plot, y);
  svg
    .append('path')
    .attr('class', 'zero')
    .attr('d', `M${x(0)},${top}V${size.heightPx - 46}`);
  drawLostSpells(svg, moment.lost, x, { top, bottom: cogBottom });
  drawChain(svg, moment, plot);
  const bottom = drawMeasures(svg, moment, { x, top: cogBottom + 26, left, right });
  const axis = axisBottom(x)
    .ticks(Math.max(3, (right - left) / 70))
    .tickSizeOuter(0);
  svg
    .append('g')
    .attr('class', 'axis')
    .attr('transform', `translate(0,${bottom})`)
    .call(axis as never);
  axisName(svg, (left + right) / 2, bottom + 34, 'Seconds from the event');
  drawReadings(svg, moment.samples, x, top, bottom);
}

/** Draws a line for each cog and the axis that names them. */
function drawCogRows(svg: ChartSvg, { left, right, top, cogs, y }: CogPlot, scale: AxisScale<number>): void {
  const rows = svg.append('g').attr('class', 'grid');
  rows.selectAll('line').data(cogs).join('line').attr('x1', left).attr('x2', right).attr('y1', y).attr('y2', y);
  const teethAxis = axisLeft(scale)
    .tickValues([...cogs])
    .tickFormat(String)
    .tickSizeOuter(0);
  svg
    .append('g')
    .attr('class', 'axis')
    .attr('transform', `translate(${left},0)`)
    .call(teethAxis as never);
  leftAxisName(svg, top, 'Cog, teeth');
}

/** Draws the cog asked for, the cog the chain was on, what the ratio says of it, and where the shift was judged to be done. */
function drawChain(svg: ChartSvg, { samples, judgedAtS, judgedTeeth }: Moment, { top, cogs, x, y }: CogPlot): void {
  const line = (className: string, key: 'askedTeeth' | 'chainTeeth'): void => {
    svg
      .append('path')
      .attr('class', className)
      .attr('d', linePath(samples, key, x, y, true));
  };
  // also where nothing was asked for at the event: a command soon after it may be what moved the chain
  line('commanded-line', 'askedTeeth');
  line('actual-line', 'chainTeeth');
  const isInView = ({ ratioTeeth }: MomentSample): boolean =>
    ratioTeeth >= cogs[0] * 0.9 && ratioTeeth <= cogs[cogs.length - 1] * 1.1;
  svg
    .append('g')
    .selectAll('path')
    .data(samples.filter(isInView))
    .join('path')
    .attr('class', 'ratio-dot')
    .attr('transform', (sample) => `translate(${x(sample.s)},${y(sample.ratioTeeth)})`)
    .attr('d', dot);
  // on the row of the cog it was judged to have come to, so that a line that passes it by does not hide it
  const wedgeY = judgedTeeth === null ? top : y(judgedTeeth) - 2;
  if (judgedAtS !== null)
    svg
      .append('path')
      .attr('class', 'judged')
      .attr('transform', `translate(${x(judgedAtS)},${wedgeY})`)
      .attr('d', wedge);
}

/** Shades the time in which a shift is still clean, and in which it is still late; what lies beyond the drawing is cut off and has no name. */
function drawTurns(
  svg: ChartSvg,
  { turnsFromS, cleanUntilS, lateUntilS }: Moment,
  x: (s: number) => number,
  top: number,
  bottom: number,
): void {
  if (cleanUntilS === null) return;
  const bothNamed = lateUntilS !== null && lateUntilS <= AFTER_S;
  // Where the legs turn fast the two lines lie close, and their names would lie on one another.
  const close = bothNamed && x(lateUntilS) - x(cleanUntilS) < NAMES_APART_PX;
  const zone = (className: string, fromS: number, toS: number, words: string, closeAnchor: string): void => {
    if (fromS >= AFTER_S) return;
    svg
      .append('rect')
      .attr('class', `turns ${className}`)
      .attr('x', x(fromS))
      .attr('width', x(Math.min(toS, AFTER_S)) - x(fromS))
      .attr('y', top)
      .attr('height', bottom - top);
    if (toS > AFTER_S) return;
    svg
      .append('path')
      .attr('class', 'turns-line')
      .attr('d', `M${x(toS)},${top - 6}V${bottom}`);
    svg
      .append('text')
      .attr('class', 'turns-name')
      .attr('x', x(toS))
      .attr('y', top - 10)
      .attr('text-anchor', close ? closeAnchor : 'middle')
      .text(words);
  };
  zone('is-clean', turnsFromS, cleanUntilS, bothNamed ? `${CLEAN_WITHIN_REVS}` : `${CLEAN_WITHIN_REVS} turns`, 'end');
  if (lateUntilS !== null) zone('is-late', cleanUntilS, lateUntilS, `${LATE_WITHIN_REVS} turns`, 'start');
}
