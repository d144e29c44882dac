import { parse } from 'csv-parse/sync';
import { csvHeader } from '../../src/ride-log/csv/csv-columns.ts';
import { csvDelimiter } from '../../src/ride-log/csv/csv-delimiter.ts';
import { textDecoder } from '../../src/ride-log/decode-text.ts';
import type { PlacelessFile } from './position-trace.ts';

/**
 * Empties every column that is not one of the contract's: what a column with another name holds, nobody can tell. The
 * header line stays, so that the reader still names those columns. A row with more cells than that line goes, as the
 * reader leaves it out: nobody can tell which of its cells is of which column. A file that holds known columns only is
 * given back as it is, byte for byte.
 *
 * @param file its name, for messages only
 */
export function dropCsvPositions(file: string, bytes: Uint8Array): PlacelessFile {
  const text = textDecoder(file, bytes).decode(bytes);
  const delimiter = csvDelimiter(text);
  let known: ReadonlySet<number> | undefined;
  let width = 0;
  let extra = false;
  const lines: string[] = [];
  const write = (cells: readonly string[]): void => {
    lines.push(cells.map((cell) => quoted(cell, delimiter)).join(delimiter));
  };
  parse(text, {
    bom: true,
    delimiter,
    relax_column_count: true,
    skip_empty_lines: true,
    on_record: (cells: string[]) => {
      if (!known) {
        const header = csvHeader(cells);
        known = new Set(header.at.values());
        width = cells.length;
        extra = known.size < width;
        write(cells);
      } else {
        if (cells.length > width) extra = true;
        if (cells.slice(width).some((cell) => cell.trim() !== '')) return null;
        write(cells.slice(0, width).map((cell, i) => (known?.has(i) ? cell : '')));
      }
      return null;
    },
  });
  // A column of another name is no sure position: how many records had one cannot be told.
  return {
    bytes: extra ? new TextEncoder().encode(`${lines.join('\n')}\n`) : bytes,
    found: extra ? lines.length - 1 : 0,
  };
}

const quoted = (cell: string, delimiter: string): string =>
  cell.includes(delimiter) || /["\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
