import { select } from 'd3-selection';
import { parseHTML } from 'linkedom';
import type { ChartSvg } from '../../../src/report/charts/chart-frame.ts';

/** Draws into an `<svg>` without a browser and gives it back for looking at. */
export function drawChart(draw: (svg: ChartSvg) => void): SVGSVGElement {
  const { document } = parseHTML('<!doctype html><html><body></body></html>');
  const element = document.createElementNS('http://www.w3.org/2000/svg', 'svg') as unknown as SVGSVGElement;
  draw(select(element));
  return element;
}

/** What can be read of a drawing, mark by mark. */
export const marks = (svg: SVGSVGElement): Element[] => [...svg.querySelectorAll('.mark')];

/** The counts of each row under the axis of one kind, row by row. */
export const rowsOf = (svg: SVGSVGElement, kind: string): string[] =>
  [...svg.querySelectorAll(`.counts.${kind}`)].map((row) =>
    [...row.querySelectorAll('.count')].map((count) => count.textContent).join(' '),
  );
