import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { SAY_LITTLE } from '../../diagnosis/fewest-shifts.ts';
import { figure } from '../../numeric/figure.ts';
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
import { type LegendEntry, legendThenPlot } from './chart-legend.ts';
import { cutLegend, drawRateMarks } from './rate-marks.ts';
import { topRate } from './top-rate.ts';

/** Trouble in one ride. */
interface TrendRide {
  /** Short name on the axis, for example the day. */
  readonly label: string;
  readonly shifts: number;
  readonly troubleRate: number | null;
  readonly low: number;
  readonly high: number;
}

/** An adjustment between rides: it stands left of the ride with index `beforeRide`. */
interface TrendAdjustment {
  readonly beforeRide: number;
  readonly words: string;
}

/** What the chart of the trouble over the rides shows, in order of time. */
export interface RideTrend {
  readonly rides: readonly TrendRide[];
  readonly adjustments: readonly TrendAdjustment[];
}

const dot = 'M0,-4.5A4.5,4.5,0,1,1,0,4.5A4.5,4.5,0,1,1,0,-4.5Z';
const wedge = 'M-5,-5H5L0,4Z';
const legend: readonly LegendEntry[] = [
  { words: 'one ride', className: 'actual point', path: dot },
  { words: 'bar: 95 % interval', className: 'interval quiet', path: 'M0,-7V7' },
];
const adjustmentLegend: LegendEntry = { words: 'adjustment', className: 'adjusted-wedge', path: wedge };
const faintLegend: LegendEntry = {
  words: `faint: under ${SAY_LITTLE} shifts`,
  className: 'actual point few',
  path: dot,
};

/** A ride with its place in the order of all. */
type PlacedRide = TrendRide & { readonly index: number };

/** Draws the rate of trouble ride by ride, evenly spaced in their order, with adjustments marked between them. */
export function drawRideTrend(svg: ChartSvg, { rides, adjustments }: RideTrend, size: ChartSize): void {
  startChart(svg, size);
  const rated = rides.map((ride, index) => ({ ...ride, index })).filter((ride) => ride.troubleRate !== null);
  const top = topRate(rated);
  const said = [
    ...legend,
    ...(adjustments.length > 0 ? [adjustmentLegend] : []),
    ...(rated.some(({ shifts }) => shifts < SAY_LITTLE) ? [faintLegend] : []),
    ...cutLegend(rated, top),
  ];
  const area = legendThenPlot(svg, said, size, { left: 44, right: 12, bottom: 46 });
  const x = scaleLinear([-0.5, Math.max(1, rides.length) - 0.5], [area.left, area.right]);
  const y = scaleLinear([0, top], [area.bottom, area.top]).clamp(true);
  drawLeftAxis(svg, area, y, 'Trouble, % of judged shifts', (axis) => axis.ticks(5, '.0%'));
  drawBottomAxis(svg, area, x, 'Rides in order of time', (axis) =>
    axis.tickValues(labelledRides(rides.length, area.right - area.left)).tickFormat((i) => rides[Number(i)].label),
  );
  if (rated.length === 0) drawEmptyNote(svg, area, 'No ride with judged shifts');
  drawAdjustments(svg, grouped(adjustments), x, area);
  drawRates(svg, rated, x, y);
}

function drawAdjustments(
  svg: ChartSvg,
  adjustments: readonly TrendAdjustment[],
  x: ScaleLinear<number, number>,
  area: PlotArea,
): void {
  const made = svg
    .append('g')
    .selectAll('g')
    .data(adjustments)
    .join('g')
    .attr('class', 'mark adjusted')
    .attr('transform', ({ beforeRide }) => `translate(${x(beforeRide - 0.5)},0)`);
  made.append('path').attr('class', 'adjusted-line').attr('d', `M0,${area.top}V${area.bottom}`);
  made
    .append('path')
    .attr('class', 'adjusted-wedge')
    .attr('transform', `translate(0,${area.top + 5})`)
    .attr('d', wedge);
  readsAs(made, ({ words }) => words);
}

function drawRates(
  svg: ChartSvg,
  rides: readonly PlacedRide[],
  x: ScaleLinear<number, number>,
  y: ScaleLinear<number, number>,
): void {
  const path = line<PlacedRide>(
    (ride) => x(ride.index),
    (ride) => y(ride.troubleRate ?? 0),
  )(rides);
  svg.append('path').attr('class', 'trend-line').attr('d', path);
  const marks = drawRateMarks(svg, rides, y, {
    className: (ride) => `actual${ride.shifts < SAY_LITTLE ? ' few' : ''}`,
    x: (ride) => x(ride.index),
    point: () => dot,
  });
  readsAs(marks, (ride) => `${ride.label}: ${rateWithInterval(ride)} of ${figure(ride.shifts)} judged shifts`);
}

/** Rides that get a label: as many as fit, the last always. */
function labelledRides(rides: number, widthPx: number): number[] {
  const step = Math.max(1, Math.ceil(rides / Math.max(1, Math.floor(widthPx / 64))));
  return Array.from({ length: rides }, (_, i) => i).filter((i) => (rides - 1 - i) % step === 0);
}

function grouped(adjustments: readonly TrendAdjustment[]): TrendAdjustment[] {
  const words = new Map<number, string[]>();
  for (const made of adjustments) words.set(made.beforeRide, [...(words.get(made.beforeRide) ?? []), made.words]);
  return [...words].map(([beforeRide, lines]) => ({ beforeRide, words: lines.join('\n') }));
}
