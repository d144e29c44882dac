import { axisBottom, axisLeft } from 'd3-axis';
import { scaleLinear, scaleLog } from 'd3-scale';
import { axisName, type ChartSize, type ChartSvg, startChart } from '../../../src/report/charts/chart-frame.ts';
import { drawLegend, type LegendEntry, legendHeightPx } from '../../../src/report/charts/chart-legend.ts';
import { CLEAN_WITHIN_REVS, LATE_WITHIN_REVS } from '../../../src/shifts/turn-limits.ts';
import { afterS, beforeS, type Moment, type MomentSample } from './moment.ts';

const dot = 'M0,-3A3,3,0,1,1,0,3A3,3,0,1,1,0,-3Z';
const wedge = 'M-5,-7H5L0,1Z';
const always: readonly LegendEntry[] = [
  { words: 'chain on', className: 'actual-line', path: 'M-8,0H8' },
  { words: 'by speed and cadence', className: 'ratio-dot', path: dot },
];
const askedFor: LegendEntry = { words: 'asked for', className: 'commanded-line', path: 'M-8,0H8' };
const judgedThere: LegendEntry = { words: 'judged to be there', className: 'judged', path: wedge };

const cogHeight = 170;
const bandHeight = 32;
const bandGap = 22;
const bands = [
  { key: 'cadenceRpm', words: 'Cadence, rpm', className: 'cadence' },
  { key: 'speedKmh', words: 'Speed, km/h', className: 'speed' },
  { key: 'powerW', words: 'Power, W', className: 'power' },
] as const;

const bandsOf = ({ samples }: Moment) =>
  bands.filter(({ key }) => samples.some((sample) => !Number.isNaN(sample[key])));

const legendOf = (moment: Moment, isShift: boolean): readonly LegendEntry[] => [
  ...(isShift ? [askedFor] : []),
  ...always,
  ...(moment.judgedAtS === null ? [] : [judgedThere]),
];

const topOf = (moment: Moment, widthPx: number, isShift: boolean): number =>
  legendHeightPx(legendOf(moment, isShift), widthPx) + (isShift ? 40 : 26);

/** Height that the drawing needs. */
export const momentHeightPx = (moment: Moment, widthPx: number, isShift: boolean): number =>
  topOf(moment, widthPx, isShift) + cogHeight + 26 + bandsOf(moment).length * (bandHeight + bandGap) - bandGap + 50;

type Key = 'askedTeeth' | 'chainTeeth' | 'speedKmh' | 'cadenceRpm' | 'powerW';

/** Cogs that the moment touches, with one more on either side. */
function cogsInView({ cassette, samples }: Moment): readonly number[] {
  const seen = samples
    .flatMap((sample) => [sample.askedTeeth, sample.chainTeeth])
    .filter((teeth) => !Number.isNaN(teeth));
  const places = seen.map((teeth) => cassette.indexOf(teeth)).filter((place) => place >= 0);
  if (places.length === 0) return cassette;
  return cassette.slice(Math.max(0, Math.min(...places) - 1), Math.max(...places) + 2);
}

/** A line of one value; stepped for cogs, broken where the value is missing. */
function linePath(
  samples: readonly MomentSample[],
  key: Key,
  x: (s: number) => number,
  y: (value: number) => number,
  stepped: boolean,
): string {
  let path = '';
  let before = Number.NaN;
  for (const sample of samples) {
    const value = sample[key];
    if (!Number.isNaN(value)) {
      const [px, py] = [x(sample.s).toFixed(1), y(value).toFixed(1)];
      if (Number.isNaN(before)) path += `M${px},${py}`;
      else path += stepped ? `H${px}V${py}` : `L${px},${py}`;
    }
    before = value;
  }
  return path;
}

function reading(sample: MomentSample): string {
  const when =
    sample.s < 0
      ? `${Math.abs(sample.s).toFixed(0)} s before`
      : sample.s < 0.5
        ? 'At the event'
        : `${sample.s.toFixed(0)} s after`;
  const part = (name: string, value: number, unit = '', digits = 0): string | null =>
    Number.isNaN(value) ? null : `${name} ${value.toFixed(digits)}${unit}`;
  const parts = [
    part('asked for', sample.askedTeeth),
    part('chain on', sample.chainTeeth),
    part('by ratio', sample.ratioTeeth, '', 1),
    part('cadence', sample.cadenceRpm, ' rpm'),
    part('speed', sample.speedKmh, ' km/h', 1),
    part('power', sample.powerW, ' W'),
  ];
  return `${when}: ${parts.filter(Boolean).join(', ')}`;
}

/** Draws the cogs of the thirty seconds, with the crank turns that part clean, late and missed, and the measures below. */
export function drawMoment(svg: ChartSvg, moment: Moment, size: ChartSize, isShift: boolean): void {
  startChart(svg, size);
  drawLegend(svg, legendOf(moment, isShift), size.widthPx);
  const left = 44;
  const right = size.widthPx - 8;
  const top = topOf(moment, size.widthPx, isShift);
  const cogBottom = top + cogHeight;
  const x = scaleLinear([-beforeS, afterS], [left, right]);
  const { samples } = moment;
  const cogs = cogsInView(moment);
  const y = scaleLog([cogs[0] * 0.95, cogs[cogs.length - 1] * 1.05], [cogBottom, top]).clamp(true);

  if (isShift) drawTurns(svg, moment, x, top, cogBottom);
  const rows = svg.append('g').attr('class', 'grid');
  rows.selectAll('line').data(cogs).join('line').attr('x1', left).attr('x2', right).attr('y1', y).attr('y2', y);
  const teethAxis = axisLeft(y)
    .tickValues([...cogs])
    .tickFormat(String)
    .tickSizeOuter(0);
  svg
    .append('g')
    .attr('class', 'axis')
    .attr('transform', `translate(${left},0)`)
    .call(teethAxis as never);
  svg
    .append('text')
    .attr('class', 'axis-name')
    .attr('x', 4)
    .attr('y', top - 10)
    .text('Cog, teeth');
  svg
    .append('path')
    .attr('class', 'zero')
    .attr('d', `M${x(0)},${top}V${size.heightPx - 46}`);
  if (isShift)
    svg
      .append('path')
      .attr('class', 'commanded-line')
      .attr('d', linePath(samples, 'askedTeeth', x, y, true));
  svg
    .append('path')
    .attr('class', 'actual-line')
    .attr('d', linePath(samples, 'chainTeeth', x, y, true));
  svg
    .append('g')
    .selectAll('path')
    .data(
      samples.filter(
        (sample) => sample.ratioTeeth >= cogs[0] * 0.9 && sample.ratioTeeth <= cogs[cogs.length - 1] * 1.1,
      ),
    )
    .join('path')
    .attr('class', 'ratio-dot')
    .attr('transform', (sample) => `translate(${x(sample.s)},${y(sample.ratioTeeth)})`)
    .attr('d', dot);

  if (moment.judgedAtS !== null)
    svg
      .append('path')
      .attr('class', 'judged')
      .attr('transform', `translate(${x(moment.judgedAtS)},${top})`)
      .attr('d', wedge);
  const bottom = drawMeasures(svg, moment, x, cogBottom + 26, left, right);
  const axis = axisBottom(x)
    .ticks(Math.max(3, (right - left) / 70))
    .tickSizeOuter(0);
  svg
    .append('g')
    .attr('class', 'axis')
    .attr('transform', `translate(0,${bottom})`)
    .call(axis as never);
  axisName(svg, (left + right) / 2, bottom + 34, 'Seconds from the event');
  drawReadings(svg, samples, x, top, bottom);
}

/** Shades the time in which a shift is still clean, and in which it is still late. */
function drawTurns(
  svg: ChartSvg,
  { cleanUntilS, lateUntilS }: Moment,
  x: (s: number) => number,
  top: number,
  bottom: number,
): void {
  const zone = (className: string, fromS: number, toS: number, words: string): void => {
    svg
      .append('rect')
      .attr('class', `turns ${className}`)
      .attr('x', x(fromS))
      .attr('width', Math.max(0, x(Math.min(toS, afterS)) - x(fromS)))
      .attr('y', top)
      .attr('height', bottom - top);
    svg
      .append('path')
      .attr('class', 'turns-line')
      .attr('d', `M${x(toS)},${top - 6}V${bottom}`);
    svg
      .append('text')
      .attr('class', 'turns-name')
      .attr('x', x(toS))
      .attr('y', top - 10)
      .attr('text-anchor', 'middle')
      .text(words);
  };
  if (cleanUntilS !== null) zone('is-clean', 0, cleanUntilS, `${CLEAN_WITHIN_REVS}`);
  if (cleanUntilS !== null && lateUntilS !== null && lateUntilS < afterS)
    zone('is-late', cleanUntilS, lateUntilS, `${LATE_WITHIN_REVS} turns`);
}

/** Draws cadence, speed and power as thin bands, each only where there is any; returns the lower edge. */
function drawMeasures(
  svg: ChartSvg,
  moment: Moment,
  x: (s: number) => number,
  from: number,
  left: number,
  right: number,
): number {
  const { samples } = moment;
  let at = from;
  for (const { key, words, className } of bandsOf(moment)) {
    const most = Math.max(1, ...samples.map((sample) => (Number.isNaN(sample[key]) ? 0 : sample[key])));
    const y = scaleLinear([0, most], [at + bandHeight, at]);
    const group = svg.append('g').attr('class', `measure ${className}`);
    const write = (look: string, textX: number, textY: number, anchor: string, text: string): void => {
      group.append('text').attr('class', look).attr('x', textX).attr('y', textY).attr('text-anchor', anchor).text(text);
    };
    write('axis-name', left, at - 4, 'start', words);
    write('count', left - 8, at + 8, 'end', String(Math.round(most)));
    write('count', left - 8, at + bandHeight, 'end', '0');
    group
      .append('path')
      .attr('class', 'grid-line')
      .attr('d', `M${left},${at + bandHeight}H${right}`);
    group
      .append('path')
      .attr('class', 'measure-line')
      .attr('d', linePath(samples, key, x, y, false));
    at += bandHeight + bandGap;
  }
  return at > from ? at - bandGap + 4 : from - 22;
}

/** One column a record over all bands, to read it by pointer or keyboard. */
function drawReadings(
  svg: ChartSvg,
  samples: readonly MomentSample[],
  x: (s: number) => number,
  top: number,
  bottom: number,
): void {
  svg
    .append('g')
    .selectAll('rect')
    .data(samples)
    .join('rect')
    .attr('class', 'mark second')
    .attr('x', (sample) => x(sample.s) - 1)
    .attr('width', 2)
    .attr('y', top)
    .attr('height', bottom - top)
    .append('title')
    .text(reading);
}
