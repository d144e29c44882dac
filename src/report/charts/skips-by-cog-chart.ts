import { max } from 'd3-array';
import { scaleBand, scaleLinear } from 'd3-scale';
import { lowerFirst } from '../../numeric/lower-first.ts';
import type { CogSkips } from '../report-schema.ts';
import { isHardlyPedalled, type SkipsBeforeAfter, skipsOnCog } from '../words/skip-sentences.ts';
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
import { COUNT_ROW_PX, type CountRow, drawCountRows } from './cog-count-rows.ts';
import { eventShape } from './mark-shapes.ts';
import { cutLegend, drawRateMarks } from './rate-marks.ts';

const NONE_SEEN = 'M-4,0H4';
const INTERVAL = 'M0,-7V7';

const legend: readonly LegendEntry[] = [
  { words: 'skips seen', className: 'event skip', path: eventShape.skip },
  { words: 'none seen', className: 'none', path: NONE_SEEN },
  { words: 'bar: 95 % interval', className: 'interval quiet', path: INTERVAL },
  { words: 'faint: too little to tell', className: 'event few', path: eventShape.skip },
];
const ofBefore: LegendEntry = { words: 'left, dashed: before', className: 'interval quiet dashed', path: INTERVAL };

/** What is drawn of one stretch of riding: its name (none where all riding is one), its looks, and the place of its points within the band of a cog, 0 to 1. */
interface Stretch {
  readonly name: string;
  readonly className: string;
  readonly place: number;
  readonly cogs: readonly CogSkips[];
}

/** Hours in the room under a cog: "0.4", "12". */
const hours = (seconds: number): string => (seconds / 3600).toFixed(seconds < 36_000 ? 1 : 0);

const countRows = ({ name, className, cogs }: Stretch): CountRow[] => [
  {
    name: name || 'skips',
    className: `event skip ${className}`.trim(),
    path: eventShape.skip,
    counts: new Map(cogs.filter(({ skips }) => skips > 0).map(({ teeth, skips }) => [teeth, skips])),
  },
  {
    name: 'hours',
    className: '',
    path: '',
    counts: new Map(cogs.map(({ teeth, pedallingS }) => [teeth, pedallingS])),
    writes: (_, seconds) => hours(seconds),
  },
];

/** Upper end of the axis: over the intervals of all cogs but those hardly pedalled on, whose points alone count. */
function topPerHour(cogs: readonly CogSkips[]): number {
  const highs = max(cogs, (cog) => (isHardlyPedalled(cog) ? null : cog.high)) ?? 0;
  return Math.max(1, highs, max(cogs, ({ perHour }) => perHour) ?? 0) * 1.05;
}

/**
 * Draws how often the chain was seen to skip on each cog, an hour of pedalling on it, as points with 95 % intervals; cogs hardly pedalled
 * on faint, those not pedalled on without a point. Under the axis stand the skips and the hours.
 */
export const drawSkipsByCog = (svg: ChartSvg, cogs: readonly CogSkips[], size: ChartSize): void =>
  drawStretches(svg, [{ name: '', className: '', place: 0.5, cogs }], size);

/** Draws the same for the time before a chain or cassette was replaced (left, dashed) and for that after it (right) beside one another. */
export const drawSkipsBeforeAfter = (svg: ChartSvg, { before, after }: SkipsBeforeAfter, size: ChartSize): void =>
  drawStretches(
    svg,
    [
      { name: 'before', className: 'before', place: 0.25, cogs: before },
      { name: 'after', className: '', place: 0.75, cogs: after },
    ],
    size,
  );

function drawStretches(svg: ChartSvg, stretches: readonly Stretch[], size: ChartSize): void {
  startChart(svg, size);
  const cogs = stretches.flatMap((stretch) => stretch.cogs);
  const top = topPerHour(cogs);
  const rates = stretches.flatMap((stretch) =>
    stretch.cogs.flatMap((cog) =>
      cog.perHour === null ? [] : [{ stretch, cog, troubleRate: cog.perHour, low: cog.low ?? 0, high: cog.high ?? 0 }],
    ),
  );
  const rows = stretches.flatMap(countRows);
  const entries = [...legend, ...(stretches.length > 1 ? [ofBefore] : []), ...cutLegend(rates, top)];
  const area = legendThenPlot(svg, entries, size, { left: 66, right: 8, bottom: 44 + rows.length * COUNT_ROW_PX });
  const x = scaleBand(
    cogs.map(({ teeth }) => String(teeth)),
    [area.left, area.right],
  ).padding(0.15);
  const y = scaleLinear([0, top], [area.bottom, area.top]).clamp(true);
  drawLeftAxis(svg, area, y, 'Skips seen in an hour of pedalling on the cog', (axis) => axis.ticks(5));
  drawBottomAxis(svg, area, x, 'On cog, teeth (towards the spokes to the right)');
  if (cogs.every(({ skips }) => skips === 0)) drawEmptyNote(svg, area, 'No skip was seen');
  const at = (teeth: number, place: number): number => (x(String(teeth)) ?? 0) + x.bandwidth() * place;
  const marks = drawRateMarks(svg, rates, y, {
    className: ({ stretch, cog }) =>
      [cog.skips > 0 ? 'event skip' : 'none', stretch.className, isHardlyPedalled(cog) && 'few']
        .filter(Boolean)
        .join(' '),
    x: ({ stretch, cog }) => at(cog.teeth, stretch.place),
    point: ({ cog }) => (cog.skips > 0 ? eventShape.skip : NONE_SEEN),
  });
  readsAs(marks, ({ stretch: { name }, cog }) =>
    name ? `${name === 'before' ? 'Before' : 'After'}, ${lowerFirst(skipsOnCog(cog))}` : skipsOnCog(cog),
  );
  drawCountRows(svg, rows, (teeth) => at(teeth, 0.5), area.bottom + 50);
}
