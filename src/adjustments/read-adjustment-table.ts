import { CsvError, type CsvErrorCode, parse } from 'csv-parse/sync';
import { closestWord } from '../errors/closest-word.ts';
import { FileError } from '../errors/file-error.ts';
import { csvDelimiter } from '../ride-log/csv/csv-delimiter.ts';
import type { AdjustmentEntry } from './adjustment-entry.ts';

/** Columns of the CSV and keys of the JSON form, in the contract's order. */
export const adjustmentColumns: readonly string[] = ['at', 'parameter', 'amount', 'unit', 'note'];
const needed = ['at', 'parameter'];

/**
 * Reads the rows of an adjustments CSV. The separator is a comma, a semicolon or a tab, whichever the header line uses;
 * with semicolons an amount may carry a decimal comma, as spreadsheets of some countries write it. Where the note is the last
 * column, cells beyond it belong to it: whoever writes by hand puts a comma in a note without quotes. A row of empty cells, as
 * spreadsheets leave them, is none. An empty cell is left out of `fields`; an amount that is no number stays text, for the schema to refuse.
 *
 * @throws FileError `bad-csv` (quotes, cells missing or too many) or `bad-adjustments` (header)
 */
export function readAdjustmentTable(file: string, text: string): AdjustmentEntry[] {
  const delimiter = csvDelimiter(text);
  const rows = readRows(file, text, delimiter);
  const header = (rows[0]?.record ?? []).map((name) => name.toLowerCase());
  checkHeader(file, header);
  return rows.slice(1).map(({ record: cells, line }) => {
    const record = cells.length === header.length ? cells : withWholeNote(file, { cells, line }, header, delimiter);
    const fields: Record<string, unknown> = {};
    header.forEach((name, i) => {
      if (record[i] !== '') fields[name] = name === 'amount' ? readAmount(record[i], delimiter) : record[i];
    });
    return { place: `line ${line}`, cell: 'column', fields };
  });
}

interface Row {
  readonly record: string[];
  readonly line: number;
}

/** The cells of a row with those beyond the last column, a note, joined to it. */
function withWholeNote(
  file: string,
  { cells, line }: { readonly cells: readonly string[]; readonly line: number },
  header: readonly string[],
  delimiter: string,
): string[] {
  const last = header.length - 1;
  if (cells.length < header.length || header[last] !== 'note') {
    const { found, cure } = csvFault('CSV_RECORD_INCONSISTENT_FIELDS_LENGTH');
    throw new FileError(file, 'bad-csv', `line ${line} ${found}`, cure);
  }
  const spread = cells.slice(last);
  while (spread.at(-1) === '') spread.pop();
  return [...cells.slice(0, last), spread.join(`${delimiter} `)];
}

function readRows(file: string, text: string, delimiter: string): Row[] {
  try {
    const rows = parse(text, {
      delimiter,
      trim: true,
      skip_empty_lines: true,
      relax_column_count: true,
      info: true,
    }) as unknown as {
      record: string[];
      info: { lines: number };
    }[];
    return rows
      .filter(({ record }) => record.some((cell) => cell !== ''))
      .map(({ record, info }) => ({ record, line: info.lines }));
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = (error as CsvError & { lines?: number }).lines;
    const { found, cure } = csvFault(error.code);
    throw new FileError(file, 'bad-csv', `${line ? `line ${line} ` : ''}${found}`, cure);
  }
}

const quoting = 'Put the whole note in double quotes and write each double quote within it twice, then try again.';

function csvFault(code: CsvErrorCode): { readonly found: string; readonly cure: string } {
  const cure = 'Mend that line and try again.';
  switch (code) {
    case 'CSV_RECORD_INCONSISTENT_FIELDS_LENGTH':
      return {
        found: 'has more or fewer cells than the header line',
        cure,
      };
    case 'CSV_QUOTE_NOT_CLOSED':
      return { found: 'opens a quote that is never closed', cure: quoting };
    case 'INVALID_OPENING_QUOTE':
      return { found: 'holds a double quote within a cell that does not begin with one', cure: quoting };
    case 'CSV_INVALID_CLOSING_QUOTE':
    case 'CSV_NON_TRIMABLE_CHAR_AFTER_CLOSING_QUOTE':
      return { found: 'goes on behind the double quote that ends a cell', cure: quoting };
    default:
      return { found: `cannot be read as CSV (${code})`, cure };
  }
}

function checkHeader(file: string, header: readonly string[]): void {
  const missing = needed.filter((name) => !header.includes(name));
  const unknown = header.filter((name) => !adjustmentColumns.includes(name));
  const twice = header.find((name, i) => header.indexOf(name) !== i);
  const faults: string[] = [];
  if (missing.length > 0) faults.push(`the header line lacks ${missing.map((name) => `"${name}"`).join(', ')}`);
  for (const name of unknown) {
    const nearest = closestWord(name, adjustmentColumns);
    faults.push(`the header line holds the unknown column "${name}"${nearest ? `, perhaps "${nearest}"` : ''}`);
  }
  if (twice !== undefined) faults.push(`the header line holds "${twice}" twice`);
  if (faults.length > 0)
    throw new FileError(
      file,
      'bad-adjustments',
      faults.join('; '),
      `Allowed columns are ${adjustmentColumns.join(', ')}.`,
    );
}

function readAmount(cell: string, delimiter: string): unknown {
  const plain = delimiter === ';' ? cell.replace(/^([^.,]*),([^.,]*)$/, '$1.$2') : cell;
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i.test(plain) ? Number(plain) : cell;
}
