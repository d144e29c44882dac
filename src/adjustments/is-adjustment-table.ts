import { csvDelimiter } from '../ride-log/csv/csv-delimiter.ts';

/** True where the first line of a text names the columns that every log of adjustments has. */
export function isAdjustmentTable(text: string): boolean {
  const [firstLine] = text.trimStart().split(/\r?\n|\r/, 1);
  const cells = firstLine.split(csvDelimiter(text)).map((cell) => cell.replaceAll('"', '').trim().toLowerCase());
  return ['at', 'parameter'].every((name) => cells.includes(name));
}
