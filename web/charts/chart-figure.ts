import { freshId } from '../dom/fresh-id.ts';
import { type Child, fill, listen, make, makeSvg } from '../dom/make.ts';
import { type IconName, icon } from '../page/icons.ts';
import type { ChartPlan } from './chart-plan.ts';
import { Reading } from './reading.ts';
import { saveFile } from './save-file.ts';
import { svgAsText } from './svg-as-text.ts';
import { tableAsCsv } from './table-as-csv.ts';
import { tableElement } from './table-element.ts';

/** A chart as it stands in the page. */
export interface ChartFigure {
  readonly element: HTMLElement;
  /** Shows other data in the same place. */
  change(plan: ChartPlan): void;
}

const tool = (name: IconName, text: string, click: () => void): HTMLButtonElement =>
  listen(make('button', { type: 'button', class: 'plain small' }, icon(name), text), { click });

/** The page's ground colour, for saved pictures. */
const groundColour = (): string => getComputedStyle(document.body).backgroundColor;

/**
 * Puts a chart into a figure: heading, controls given by the view, the drawing (redrawn when its width changes) with
 * reading by pointer and keyboard, and tools to see the data as a table and to save picture and data.
 */
export function chartFigure(firstPlan: ChartPlan, ...controls: Child[]): ChartFigure {
  let plan = firstPlan;
  const summaryId = freshId('summary');
  const title = make('h3', {}, plan.title);
  const summary = make('p', { class: 'chart-summary', id: summaryId }, plan.summary);
  const svg = makeSvg('svg', { class: 'chart', 'aria-hidden': 'true' });
  const plot = make(
    'div',
    {
      class: 'plot',
      tabindex: 0,
      role: 'application',
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
  const describe = (): void => {
    title.textContent = plan.title;
    summary.textContent = plan.summary;
    plot.setAttribute('aria-label', `${plan.title}. The arrow keys read its values.`);
    if (!tablePlace.hidden) fill(tablePlace, tableElement(plan.table, plan.title));
  };
  const tableButton = tool('table', 'Show as table', () => {
    tablePlace.hidden = !tablePlace.hidden;
    tableButton.setAttribute('aria-expanded', String(!tablePlace.hidden));
    tableButton.lastChild!.textContent = tablePlace.hidden ? 'Show as table' : 'Hide the table';
    describe();
  });
  tableButton.setAttribute('aria-expanded', 'false');
  tableButton.setAttribute('aria-controls', tableId);
  const tools = make(
    'div',
    { class: 'chart-tools row' },
    tableButton,
    tool('save', 'Save picture', () =>
      saveFile(`${plan.fileName}.svg`, 'image/svg+xml', svgAsText(svg, plan.title, groundColour())),
    ),
    tool('save', 'Save data', () => saveFile(`${plan.fileName}.csv`, 'text/csv', tableAsCsv(plan.table))),
  );
  svg.setAttribute('height', String(plan.heightPx(600)));
  new ResizeObserver(([entry]) => {
    const width = Math.floor(entry.contentRect.width);
    if (width === widthPx) return;
    widthPx = width;
    draw();
  }).observe(plot);
  describe();
  return {
    element: make('figure', { class: 'chart-figure' }, title, summary, ...controls, plot, tools, tablePlace),
    change: (next) => {
      plan = next;
      describe();
      draw();
    },
  };
}
