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

/** The place that a chart is drawn in, reached by Tab. */
const plotOf = (title: string, summaryId: string, svg: SVGSVGElement): HTMLElement =>
  make(
    'div',
    {
      class: 'plot',
      tabindex: 0,
      role: 'application',
      'aria-label': `${title}. The arrow keys read its values.`,
      'aria-roledescription': 'chart',
      'aria-describedby': summaryId,
    },
    svg,
  );

/** Draws the chart in `plot`, and again whenever the plot's width changes. */
function drawToWidth(plan: ChartPlan, plot: HTMLElement, svg: SVGSVGElement): void {
  const reading = new Reading(plot);
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
  svg.setAttribute('height', String(plan.heightPx(600)));
  new ResizeObserver(([entry]) => {
    const width = Math.floor(entry.contentRect.width);
    if (width === widthPx) return;
    widthPx = width;
    draw();
  }).observe(plot);
}

/** A button that shows and hides the chart's data as a table in `place`. */
function tableTool(plan: ChartPlan, place: HTMLElement): HTMLButtonElement {
  const button = chartTool('table', 'Show as table', () => {
    place.hidden = !place.hidden;
    button.setAttribute('aria-expanded', String(!place.hidden));
    button.lastChild!.textContent = place.hidden ? 'Show as table' : 'Hide the table';
    if (!place.hidden) fill(place, tableElement(plan.tableToRead ?? plan.table, plan.title));
  });
  button.setAttribute('aria-expanded', 'false');
  button.setAttribute('aria-controls', place.id);
  return button;
}

/**
 * Puts a chart into a figure: heading, summary, the drawing (redrawn when its width changes) with reading by pointer and
 * keyboard, and tools to see the data as a table and to save picture and data.
 */
export function chartFigure(plan: ChartPlan): HTMLElement {
  const { title, summary, fileName } = plan;
  const summaryId = freshId('summary');
  const svg = makeSvg('svg', { class: 'chart', 'aria-hidden': 'true' });
  const plot = plotOf(title, summaryId, svg);
  drawToWidth(plan, plot, svg);
  const tablePlace = make('div', { id: freshId('table'), hidden: true });
  const savePicture = (): void => saveFile(`${fileName}.svg`, 'image/svg+xml', svgAsText(svg, title, groundColour()));
  const saveData = (): void => saveFile(`${fileName}.csv`, 'text/csv', tableAsCsv(plan.table));
  return make(
    'figure',
    { class: 'chart-figure' },
    make('h3', {}, title),
    make('p', { class: 'chart-summary', id: summaryId }, summary),
    plot,
    make(
      'div',
      { class: 'chart-tools row' },
      tableTool(plan, tablePlace),
      chartTool('save', 'Save picture', savePicture),
      chartTool('save', 'Save data', saveData),
    ),
    tablePlace,
  );
}
