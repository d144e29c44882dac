import type { Cell, ChartTable } from './chart-plan.ts';

/** A cell as RFC 4180 writes it. Text that a spreadsheet would take for a formula gets a leading apostrophe. */
function cellText(cell: Cell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return String(cell);
  const text = /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** The table as CSV with a header line and CRLF ends. */
export function tableAsCsv(table: ChartTable): string {
  return [table.columns, ...table.rows].map((row) => `${row.map(cellText).join(',')}\r\n`).join('');
}
