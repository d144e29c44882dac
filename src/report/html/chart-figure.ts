import { select } from 'd3-selection';
import { parseHTML } from 'linkedom';
import type { ChartSize, ChartSvg } from '../charts/chart-frame.ts';
import { html, Markup } from './markup.ts';

const { document } = parseHTML('<!doctype html><html><body></body></html>');

/** Width of a drawing on a sheet or a wide screen, and on a phone: about that of the column it stands in, so that its letters keep their size. */
const WIDE_PX = 860;
const NARROW_PX = 330;

/**
 * A chart as a figure of a static page: drawn without a browser into an `<svg>` that scales with the page, once for wide screens and
 * paper and once for narrow screens. The style sheet shows one of the two.
 *
 * @param summary what it shows, read out in place of the drawing and printed below it
 */
export function chartFigure(
  title: string,
  summary: string,
  heightPx: number,
  draw: (svg: ChartSvg, size: ChartSize) => void,
): Markup {
  const drawn = (widthPx: number, className: string): Markup => {
    const element = document.createElementNS('http://www.w3.org/2000/svg', 'svg') as unknown as SVGSVGElement;
    draw(select(element), { widthPx, heightPx });
    element.classList.add(className);
    element.setAttribute('role', 'img');
    element.setAttribute('aria-label', `${title}. ${summary}`);
    return new Markup(element.outerHTML);
  };
  return html`<figure>
<h3>${title}</h3>
${drawn(WIDE_PX, 'is-wide')}
${drawn(NARROW_PX, 'is-narrow')}
<figcaption>${summary}</figcaption>
</figure>`;
}
