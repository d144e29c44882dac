import { make } from '../dom/make.ts';
import { stopWhereItScrolls } from '../dom/stop-where-it-scrolls.ts';
import type { ChartTable } from './chart-plan.ts';

const cellText = (cell: string | number | null): string =>
  cell === null ? '–' : typeof cell === 'number' ? String(Math.round(cell * 1000) / 1000) : cell;

/** A chart's data as a table to read. Wide ones scroll by themselves. */
export function tableElement(table: ChartTable, caption: string): HTMLElement {
  const head = make('tr', {}, ...table.columns.map((column) => make('th', { scope: 'col' }, column)));
  const body = table.rows.map((row) =>
    make(
      'tr',
      {},
      ...row.map((cell) => make('td', { class: typeof cell === 'number' ? 'number' : null }, cellText(cell))),
    ),
  );
  return stopWhereItScrolls(
    make(
      'div',
      { class: 'scrolls', role: 'region', 'aria-label': caption },
      make(
        'table',
        { class: 'figures' },
        make('caption', {}, caption),
        make('thead', {}, head),
        make('tbody', {}, ...body),
      ),
    ),
  );
}
