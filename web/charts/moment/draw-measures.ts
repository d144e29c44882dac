import { scaleLinear } from 'd3-scale';
import type { ChartSvg } from '../../../src/report/charts/chart-frame.ts';
import type { Moment } from './moment.ts';
import { linePath } from './moment-line.ts';

/** Height of one band, and the room above it for its name, px. */
const BAND_HEIGHT = 32;
const BAND_GAP = 22;
const bands = [
  { key: 'cadenceRpm', words: 'Cadence, rpm', className: 'cadence' },
  { key: 'speedKmh', words: 'Speed, km/h', className: 'speed' },
  { key: 'powerW', words: 'Power, W', className: 'power' },
] as const;

/** The measures that a moment holds any value of. */
const bandsOf = ({ samples }: Moment) =>
  bands.filter(({ key }) => samples.some((sample) => !Number.isNaN(sample[key])));

/** Height that the measures of a moment need, px. */
export const measuresHeightPx = (moment: Moment): number =>
  bandsOf(moment).length * (BAND_HEIGHT + BAND_GAP) - BAND_GAP;

/** Where the bands stand in the drawing, px: `x` of seconds from the event. */
export interface MeasuresPlot {
  readonly x: (s: number) => number;
  readonly top: number;
  readonly left: number;
  readonly right: number;
}

/** Draws cadence, speed and power as thin bands, each only where there is any; returns the lower edge. */
export function drawMeasures(svg: ChartSvg, moment: Moment, { x, top, left, right }: MeasuresPlot): number {
  const { samples } = moment;
  let at = top;
  for (const { key, words, className } of bandsOf(moment)) {
    const most = Math.max(1, ...samples.map((sample) => (Number.isNaN(sample[key]) ? 0 : sample[key])));
    const y = scaleLinear([0, most], [at + BAND_HEIGHT, at]);
    const group = svg.append('g').attr('class', `measure ${className}`);
    const write = (look: string, textX: number, textY: number, anchor: string, text: string): void => {
      group.append('text').attr('class', look).attr('x', textX).attr('y', textY).attr('text-anchor', anchor).text(text);
    };
    write('axis-name', left, at - 4, 'start', words);
    write('count', left - 8, at + 8, 'end', String(Math.round(most)));
    write('count', left - 8, at + BAND_HEIGHT, 'end', '0');
    group
      .append('path')
      .attr('class', 'grid-line')
      .attr('d', `M${left},${at + BAND_HEIGHT}H${right}`);
    group
      .append('path')
      .attr('class', 'measure-line')
      .attr('d', linePath(samples, key, x, y, false));
    at += BAND_HEIGHT + BAND_GAP;
  }
  return at > top ? at - BAND_GAP + 4 : top - 22;
}
