import { freshId } from '../dom/fresh-id.ts';
import { fill, make, makeSvg } from '../dom/make.ts';
import type { ChartPlan } from './chart-plan.ts';
import { chartTool } from './chart-tool.ts';
import { Reading } from './reading.ts';
import { saveFile } from './save-file.ts';
import { svgAsText } from './svg-as-text.ts';
import { tableAsCsv } from './table-as-csv.ts';
import { tableElement } from './table-element.ts';

/** The page's ground colour, for saved pictures. */
const groundColour = (): string => getComputedStyle(document.body).backgroundColor;

/**
 * Puts a chart into a figure: heading, summary, the drawing (redrawn when its width changes) with reading by pointer and
 * keyboard, and tools to see the data as a table and to save picture and data.
 */
export function chartFigure(plan: ChartPlan): HTMLElement {
  const summaryId = freshId('summary');
  const svg = makeSvg('svg', { class: 'chart', 'aria-hidden': 'true' });
  const plot = make(
    'div',
    {
      class: 'plot',
      tabindex: 0,
      role: 'application',
      'aria-label': `${plan.title}. The arrow keys read its values.`,
      'aria-roledescription': 'chart',
      'aria-describedby': summaryId,
    },
    svg,
  );
  const reading = new Reading(plot);
  const tableId = freshId('table');
  const tablePlace = make('div', { id: tableId, hidden: true });
  let widthPx = 0;

  const draw = (): void => {
    if (widthPx < 40) return;
    const heightPx = plan.heightPx(widthPx);
    svg.replaceChildren();
    svg.setAttribute('width', String(widthPx));
    svg.setAttribute('height', String(heightPx));
    plan.draw(svg, widthPx, heightPx);
    reading.read(svg);
  };
  const tableButton = chartTool('table', 'Show as table', () => {
    tablePlace.hidden = !tablePlace.hidden;
    tableButton.setAttribute('aria-expanded', String(!tablePlace.hidden));
    tableButton.lastChild!.textContent = tablePlace.hidden ? 'Show as table' : 'Hide the table';
    if (!tablePlace.hidden) fill(tablePlace, tableElement(plan.tableToRead ?? plan.table, plan.title));
  });
  tableButton.setAttribute('aria-expanded', 'false');
  tableButton.setAttribute('aria-controls', tableId);
  const tools = make(
    'div',
    { class: 'chart-tools row' },
    tableButton,
    chartTool('save', 'Save picture', () =>
      saveFile(`${plan.fileName}.svg`, 'image/svg+xml', svgAsText(svg, plan.title, groundColour())),
    ),
    chartTool('save', 'Save data', () => saveFile(`${plan.fileName}.csv`, 'text/csv', tableAsCsv(plan.table))),
  );
  svg.setAttribute('height', String(plan.heightPx(600)));
  new ResizeObserver(([entry]) => {
    const width = Math.floor(entry.contentRect.width);
    if (width === widthPx) return;
    widthPx = width;
    draw();
  }).observe(plot);
  return make(
    'figure',
    { class: 'chart-figure' },
    make('h3', {}, plan.title),
    make('p', { class: 'chart-summary', id: summaryId }, plan.summary),
    plot,
    tools,
    tablePlace,
  );
}
