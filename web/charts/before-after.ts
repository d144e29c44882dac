import { scaleLinear } from 'd3-scale';
import { percent } from '../../src/numeric/percent.ts';
import type { AdjustmentReport } from '../api/answers.ts';
import { makeSvg } from '../dom/make.ts';
import { percentFigure } from '../words/numbers.ts';

const widthPx = 260;
const labelPx = 52;
const figurePx = 48;

/** Trouble before and after one adjustment, as two intervals on one axis; `top` is the share that fills it. */
export function beforeAfter({ before, after }: AdjustmentReport, top: number): SVGSVGElement {
  const x = scaleLinear([0, top], [labelPx, widthPx - figurePx]).clamp(true);
  const line = (name: string, period: AdjustmentReport['before'], y: number): SVGElement[] => {
    const rate = period.troubleRate;
    return [
      makeSvg('text', { x: 0, y: y + 4 }, name),
      makeSvg('path', { class: 'base', d: `M${labelPx} ${y}H${widthPx - figurePx}` }),
      ...(rate === null
        ? []
        : [
            makeSvg('path', {
              class: `interval is-${name.toLowerCase()}`,
              d: `M${x(period.low)} ${y}H${x(period.high)}`,
            }),
            name === 'Before'
              ? makeSvg('rect', { class: 'is-before', x: x(rate) - 4.5, y: y - 4.5, width: 9, height: 9 })
              : makeSvg('circle', { class: 'is-after', cx: x(rate), cy: y, r: 5 }),
          ]),
      makeSvg('text', { x: widthPx, y: y + 4, 'text-anchor': 'end' }, rate === null ? 'none' : percentFigure(rate)),
    ];
  };
  const said = (rate: number | null): string => (rate === null ? 'no shift judged' : `${percent(rate)} trouble`);
  return makeSvg(
    'svg',
    {
      class: 'chart before-after',
      viewBox: `0 0 ${widthPx} 64`,
      role: 'img',
      'aria-label': `Before: ${said(before.troubleRate)}; after: ${said(after.troubleRate)}`,
    },
    ...line('Before', before, 18),
    ...line('After', after, 46),
  );
}
