import { select } from 'd3-selection';
import { parseHTML } from 'linkedom';
import type { ChartSize, ChartSvg } from '../charts/chart-frame.ts';
import { html, Markup } from './markup.ts';

const { document } = parseHTML('<!doctype html><html><body></body></html>');

/**
 * A chart as a figure of a static page: drawn without a browser into an `<svg>` that scales with the page.
 *
 * @param summary what it shows, read out in place of the drawing and printed below it
 */
export function chartFigure(
  title: string,
  summary: string,
  size: ChartSize,
  draw: (svg: ChartSvg, size: ChartSize) => void,
): Markup {
  const element = document.createElementNS('http://www.w3.org/2000/svg', 'svg') as unknown as SVGSVGElement;
  draw(select(element), size);
  element.setAttribute('role', 'img');
  element.setAttribute('aria-label', `${title}. ${summary}`);
  return html`<figure>
<h3>${title}</h3>
<div class="chart-frame">${new Markup(element.outerHTML)}</div>
<figcaption>${summary}</figcaption>
</figure>`;
}
