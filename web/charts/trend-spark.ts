import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { counted } from '../../src/numeric/counted.ts';
import { percent } from '../../src/numeric/percent.ts';
import { ridesBefore } from '../../src/report/chart-data/rides-before.ts';
import type { BikeSummary, TrendPoint } from '../api/answers.ts';
import { make, makeSvg } from '../dom/make.ts';
import { percentFigure } from '../words/numbers.ts';

const WIDTH_PX = 240;
const HEIGHT_PX = 64;
const FOOT_PX = 12;
/** Room for the scale at the left. */
const SCALE_PX = 34;

type Rated = TrendPoint & { readonly troubleRate: number };

function inWords(rated: readonly Rated[], adjustments: number): string {
  const adjusted = adjustments > 0 ? `; adjusted ${adjustments === 1 ? 'once' : `${adjustments} times`}` : '';
  const last = percent(rated[rated.length - 1].troubleRate);
  if (rated.length === 1) return `Trouble in one ride: ${last}${adjusted}`;
  return `Trouble over ${counted(rated.length, 'ride')}: ${percent(rated[0].troubleRate)} in the first, ${last} in the last${adjusted}`;
}

/** A row's small trend of trouble: a dot a ride with its interval, adjustments as wedges on the base line, the scale at its left, and below it what it shows. Rides stand evenly spaced. */
export function trendSpark({ trend, adjustmentMarks, state }: BikeSummary, topRate: number): HTMLElement {
  const rated = trend.filter((point): point is Rated => point.troubleRate !== null);
  if (rated.length === 0) return make('div', { class: 'rack-trend' });
  const x = scaleLinear([-0.5, Math.max(trend.length, 1) - 0.5], [SCALE_PX, WIDTH_PX - 4]);
  const y = scaleLinear([0, topRate], [HEIGHT_PX - FOOT_PX, 4]).clamp(true);
  const at = (point: TrendPoint): number => x(trend.indexOf(point));
  const starts = trend.map((point) => point.at);
  const wedges = adjustmentMarks.map((mark) => x(ridesBefore(starts, mark.at) - 0.5));
  // what the figure beside it counts is drawn full, what came before it faint
  const fromMs = state.sinceAt === null ? Number.NEGATIVE_INFINITY : Date.parse(state.sinceAt);
  const look = (point: TrendPoint, name: string): string => (Date.parse(point.at) < fromMs ? `${name} is-past` : name);
  const path = line<Rated>(at, (point) => y(point.troubleRate))(rated);
  const scale = (rate: number): SVGElement[] => [
    makeSvg('text', { x: SCALE_PX - 6, y: y(rate) + 3.5, 'text-anchor': 'end' }, percentFigure(rate)),
    makeSvg('path', { class: 'base', d: `M${SCALE_PX} ${y(rate)}H${WIDTH_PX}` }),
  ];
  const svg = makeSvg(
    'svg',
    {
      class: 'chart spark',
      viewBox: `0 0 ${WIDTH_PX} ${HEIGHT_PX}`,
      role: 'img',
      'aria-label': inWords(rated, wedges.length),
    },
    ...scale(0),
    ...scale(topRate),
    ...[...new Set(wedges)].map((wedge) =>
      makeSvg(
        'g',
        { class: 'adjusted' },
        makeSvg('path', { class: 'adjusted-line', d: `M${wedge} 4V${HEIGHT_PX - FOOT_PX}` }),
        makeSvg('path', { class: 'adjusted-wedge', d: `M${wedge} ${HEIGHT_PX - FOOT_PX + 1}l5 9h-10z` }),
      ),
    ),
    ...rated.map((point) =>
      makeSvg('path', {
        class: look(point, 'interval'),
        d: `M${at(point)} ${y(point.low ?? point.troubleRate)}V${y(point.high ?? point.troubleRate)}`,
      }),
    ),
    path && makeSvg('path', { class: 'trend-line', d: path }),
    ...rated.map((point) =>
      makeSvg('circle', { class: look(point, 'trend-dot'), cx: at(point), cy: y(point.troubleRate), r: 3.2 }),
    ),
  );
  const isFaint = rated.some((point) => Date.parse(point.at) < fromMs);
  const caption = `Share of shifts in trouble, ride by ride${isFaint ? '; faint: before what the figure counts' : ''}`;
  return make('div', { class: 'rack-trend' }, svg, make('small', { class: 'quiet' }, caption));
}
