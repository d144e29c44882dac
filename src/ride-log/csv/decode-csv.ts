import { type CsvError, parse } from 'csv-parse/sync';
import { FileError } from '../../errors/file-error.ts';
import { BadValues } from '../bad-values.ts';
import { textDecoder } from '../decode-text.ts';
import { RideDraft } from '../ride-draft.ts';
import { columnHints } from './column-hints.ts';
import { CSV_COLUMNS, type CsvColumn, type CsvHeader, csvHeader } from './csv-columns.ts';
import { csvDelimiter, LONGEST_LINE } from './csv-delimiter.ts';
import { csvNumber } from './csv-number.ts';
import { CsvRows } from './csv-rows.ts';
import { CsvTimes } from './csv-times.ts';
import { LongRows } from './long-rows.ts';

/**
 * Reads a CSV ride. The first line names the columns; see `CSV_COLUMNS`. The delimiter is whichever of comma, semicolon and tab stands
 * most often in it; decimal commas are understood with semicolons and tabs. Cells that cannot be read are left out with a
 * warning that names their lines. A gear record is made where, in order of time, a commanded tooth count appears or changes; empty means
 * unchanged. A row that changes the gear and measures nothing, as where gears are written at moments of their own, is no record of the
 * ride. A row with more cells than the header line is left out, since nothing tells which of its cells are of which column; from there on
 * the gear is not known until a row names it.
 *
 * Throws `unknown-format` without any known column, `no-time` without `time` or `time_s` or any time that can be read in it, `bad-csv` for a broken quote, an overlong line or
 * many rows of too many cells.
 */
export function decodeCsv(file: string, bytes: Uint8Array): RideDraft {
  const text = textDecoder(file, bytes).decode(bytes);
  const delimiter = csvDelimiter(text);
  const reader = new CsvReader(file, delimiter !== ',');
  try {
    parse(text, {
      bom: true,
      delimiter,
      relax_column_count: true,
      skip_empty_lines: true,
      max_record_size: LONGEST_LINE,
      on_record: (cells: string[], { lines }) => {
        reader.row(cells, lines);
        return null;
      },
    });
  } catch (error) {
    if (!(error instanceof Error && 'code' in error) || error instanceof FileError) throw error;
    throw badCsv(file, error as CsvError);
  }
  return reader.end();
}

function badCsv(file: string, error: CsvError): FileError {
  const line = typeof error.lines === 'number' ? ` near line ${error.lines}` : '';
  const what = error.code === 'CSV_MAX_RECORD_SIZE' ? 'a line is far too long' : 'a quote is broken';
  return new FileError(file, 'bad-csv', `cannot be read as CSV: ${what}${line}`, 'Mend that line and try again.');
}

class CsvReader {
  readonly #file: string;
  readonly #draft: RideDraft;
  readonly #decimalComma: boolean;
  readonly #bad = new BadValues();
  readonly #long = new LongRows();
  readonly #rows: CsvRows;
  #header: CsvHeader | null = null;
  #times: CsvTimes | null = null;
  #cells: readonly string[] = [];
  #line = 0;

  constructor(file: string, decimalComma: boolean) {
    this.#file = file;
    this.#draft = new RideDraft(file, 'csv');
    this.#rows = new CsvRows(file);
    this.#decimalComma = decimalComma;
  }

  row(cells: readonly string[], line: number): void {
    if (!this.#header || !this.#times) {
      this.#begin(cells);
      return;
    }
    const { at } = this.#header;
    if (this.#long.isLong(cells, this.#header.cells, line)) {
      this.#rows.addLost({ rear: at.has('rear_teeth'), front: at.has('front_teeth') });
      return;
    }
    this.#cells = cells;
    this.#line = line;
    this.#rows.add({
      time: this.#times.read(this.#cell(at.has('time') ? 'time' : 'time_s'), line),
      speedMps: this.#number('speed_mps'),
      cadenceRpm: this.#number('cadence_rpm'),
      powerW: this.#number('power_w'),
      distanceM: this.#number('distance_m'),
      rear: this.#teeth('rear_teeth'),
      front: this.#teeth('front_teeth'),
    });
  }

  end(): RideDraft {
    if (!this.#header || !this.#times) this.#refuse();
    const long = this.#long.message(this.#file);
    if (long) this.#draft.warn('long-rows', long);
    const timeWarnings = this.#times.toMs(this.#rows.time);
    const bad = this.#bad.message();
    if (bad) this.#draft.warn('bad-values', bad);
    this.#rows.fill(this.#draft);
    if (this.#draft.length === 0) {
      const unreadable = this.#times.unreadable(this.#file);
      if (unreadable) throw unreadable;
    }
    for (const { code, message } of timeWarnings) this.#draft.warn(code, message);
    return this.#draft;
  }

  #begin(cells: readonly string[]): void {
    const header = csvHeader(cells);
    if (header.at.size === 0) this.#refuse(header.unknown);
    const hints = columnHints(header.unknown, [...header.at.keys()]);
    if (!header.at.has('time') && !header.at.has('time_s')) {
      throw new FileError(
        this.#file,
        'no-time',
        'has no column time or time_s',
        hints || 'Add one of them: ISO 8601, or seconds.',
      );
    }
    if (header.unknown.length > 0) {
      const named = header.unknown.slice(0, 8).map((name) => name.slice(0, 40));
      const more = header.unknown.length > named.length ? ' and more' : '';
      this.#draft.warn(
        'unknown-columns',
        `Columns that mean nothing here were left out: ${named.join(', ')}${more}.${hints && ` ${hints}`}`,
      );
    }
    if (header.repeated.length > 0)
      this.#draft.warn(
        'repeated-columns',
        `Columns that stand in the header line more than once: ${header.repeated.join(', ')}. Of each the first was read.`,
      );
    this.#header = header;
    this.#times = new CsvTimes(header.at.has('time') ? 'time' : 'time_s', this.#decimalComma, this.#bad);
  }

  #refuse(unknown: readonly string[] = []): never {
    const hints = columnHints(unknown, []);
    throw new FileError(
      this.#file,
      'unknown-format',
      'is text, but neither TCX, GPX nor CSV with columns known here',
      `The first line of a CSV ride names its columns, any of ${CSV_COLUMNS.join(', ')}.${hints && ` ${hints}`}`,
    );
  }

  #cell(column: CsvColumn): string {
    const at = this.#header?.at.get(column);
    return at === undefined ? '' : (this.#cells[at] ?? '').trim();
  }

  #number(column: CsvColumn): number {
    const cell = this.#cell(column);
    if (cell === '' || cell.toLowerCase() === 'nan') return NaN;
    const value = csvNumber(cell, this.#decimalComma);
    if (Number.isNaN(value)) this.#bad.add(`line ${this.#line}, ${column}`, cell);
    return value;
  }

  /** 0 where the cell is empty or 0, NaN where it cannot be read. */
  #teeth(column: CsvColumn): number {
    const cell = this.#cell(column);
    if (cell === '' || cell.toLowerCase() === 'nan') return 0;
    const value = csvNumber(cell, this.#decimalComma);
    if (Number.isInteger(value) && value > 0 && value < 255) return value;
    this.#bad.add(`line ${this.#line}, ${column}`, cell);
    return value === 0 ? 0 : NaN;
  }
}
