import { select } from 'd3-selection';
import type { ChartPlan } from '../chart-plan.ts';
import { drawMoment, momentHeightPx } from './draw-moment.ts';
import type { Moment } from './moment.ts';

interface MomentPlan {
  readonly moment: Moment;
  readonly title: string;
  readonly fileName: string;
  /** Shifts have turns to count; other events have not. */
  readonly isShift: boolean;
}

/** The thirty seconds around an event as a chart. */
export function momentPlan({ moment, title, fileName, isShift }: MomentPlan): ChartPlan {
  const value = (number: number, digits = 0): number | null =>
    Number.isNaN(number) ? null : Number(number.toFixed(digits));
  return {
    title,
    summary:
      'Dashed: the cog asked for. Solid: the cog the chain was on, as the sensors show it. Dots: what speed against cadence points to, second by second.',
    fileName,
    table: {
      columns: [
        'seconds from the event',
        'cog asked for',
        'chain on',
        'cog by speed and cadence',
        'speed, km/h',
        'cadence, rpm',
        'power, W',
      ],
      rows: moment.samples.map((sample) => [
        value(sample.s, 1),
        value(sample.askedTeeth),
        value(sample.chainTeeth),
        value(sample.ratioTeeth, 1),
        value(sample.speedKmh, 1),
        value(sample.cadenceRpm),
        value(sample.powerW),
      ]),
    },
    heightPx: (widthPx) => momentHeightPx(moment, widthPx, isShift),
    draw: (svg, widthPx, heightPx) => drawMoment(select(svg), moment, { widthPx, heightPx }, isShift),
  };
}
