import { scaleLinear } from 'd3-scale';
import { percent } from '../../src/numeric/percent.ts';
import type { AdjustmentReport } from '../api/answers.ts';
import { makeSvg } from '../dom/make.ts';
import { percentFigure } from '../words/numbers.ts';

const WIDTH_PX = 260;
const LABEL_PX = 52;
const FIGURE_PX = 48;

/** Trouble before and after one adjustment, as two intervals on one axis; `top` is the share that fills it. */
export function beforeAfter({ before, after }: AdjustmentReport, top: number): SVGSVGElement {
  const x = scaleLinear([0, top], [LABEL_PX, WIDTH_PX - FIGURE_PX]).clamp(true);
  const line = (name: string, period: AdjustmentReport['before'], y: number): SVGElement[] => {
    const rate = period.troubleRate;
    return [
      makeSvg('text', { x: 0, y: y + 4 }, name),
      makeSvg('path', { class: 'base', d: `M${LABEL_PX} ${y}H${WIDTH_PX - FIGURE_PX}` }),
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
      makeSvg('text', { x: WIDTH_PX, y: y + 4, 'text-anchor': 'end' }, rate === null ? 'none' : percentFigure(rate)),
    ];
  };
  const said = (rate: number | null): string => (rate === null ? 'no shift judged' : `${percent(rate)} trouble`);
  return makeSvg(
    'svg',
    {
      class: 'chart before-after',
      viewBox: `0 0 ${WIDTH_PX} 64`,
      role: 'img',
      'aria-label': `Before: ${said(before.troubleRate)}; after: ${said(after.troubleRate)}`,
    },
    ...line('Before', before, 18),
    ...line('After', after, 46),
  );
}
