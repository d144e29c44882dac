import type { ChartSvg } from '../../../src/report/charts/chart-frame.ts';
import type { MomentSample } from './moment.ts';

/** What one record holds, in words. */
function reading(sample: MomentSample): string {
  const whole = Math.round(sample.s);
  const when = whole === 0 ? 'At the event' : `${Math.abs(whole)} s ${whole < 0 ? 'before' : 'after'}`;
  const part = (name: string, value: number, unit = '', digits = 0): string | null =>
    Number.isNaN(value) ? null : `${name} ${value.toFixed(digits)}${unit}`;
  const parts = [
    part('asked for', sample.askedTeeth),
    sample.lost ? 'drive lost' : part('chain on', sample.chainTeeth),
    part('by ratio', sample.ratioTeeth, '', 1),
    part('cadence', sample.cadenceRpm, ' rpm'),
    part('speed', sample.speedKmh, ' km/h', 1),
    part('power', sample.powerW, ' W'),
  ];
  return `${when}: ${parts.filter(Boolean).join(', ')}`;
}

/** One column a record over all bands, to read it by pointer or keyboard. */
export function drawReadings(
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
