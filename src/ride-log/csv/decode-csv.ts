import { type CsvError, parse } from 'csv-parse/sync';
import { FileError } from '../../errors/file-error.ts';
import { BadValues } from '../bad-values.ts';
import { calendarTimeMs } from '../calendar-time.ts';
import { textDecoder } from '../decode-text.ts';
import { hasTimeZone, isoTimeMs } from '../iso-time.ts';
import { type DraftRecord, RideDraft } from '../ride-draft.ts';
import { CSV_COLUMNS, type CsvColumn, type CsvHeader, csvHeader } from './csv-columns.ts';
import { csvDelimiter, LONGEST_LINE } from './csv-delimiter.ts';
import { LongRows } from './long-rows.ts';

/**
 * Reads a CSV ride. The first line names the columns; see `CSV_COLUMNS`. The delimiter is whichever of comma, semicolon and tab stands
 * most often in it; decimal commas are understood with semicolons only. Cells that cannot be read are left out with a
 * warning that names their lines. A gear record is made where a commanded tooth count appears or changes; empty means unchanged. A row
 * that changes the gear and measures nothing, as where gears are written at moments of their own, is no record of the ride. A row with
 * more cells than the header line is left out, since nothing tells which of its cells are of which column.
 *
 * Throws `unknown-format` without any known column, `no-time` without `time` or `time_s`, `bad-csv` for a broken quote, an overlong line or
 * many rows of too many cells.
 */
export function decodeCsv(file: string, bytes: Uint8Array): RideDraft {
  const text = textDecoder(file, bytes).decode(bytes);
  const delimiter = csvDelimiter(text);
  const reader = new CsvReader(file, delimiter === ';');
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

const measures = ({ speedMps, cadenceRpm, powerW, distanceM }: DraftRecord): boolean =>
  [speedMps, cadenceRpm, powerW, distanceM].some((value) => !Number.isNaN(value));

class CsvReader {
  readonly #file: string;
  readonly #draft: RideDraft;
  readonly #decimalComma: boolean;
  readonly #bad = new BadValues();
  readonly #long = new LongRows();
  #header: CsvHeader | null = null;
  /** Rows that tell of a change of gear and nothing else: in a file that measures anything they are no records of the ride. */
  readonly #gearsAlone: DraftRecord[] = [];
  #cells: readonly string[] = [];
  #line = 0;
  #rear = 0;
  #front = 0;
  #withoutZone = false;

  constructor(file: string, decimalComma: boolean) {
    this.#file = file;
    this.#draft = new RideDraft(file, 'csv');
    this.#decimalComma = decimalComma;
  }

  row(cells: readonly string[], line: number): void {
    if (!this.#header) {
      this.#begin(cells);
      return;
    }
    if (this.#long.isLong(cells, this.#header.cells, line)) return;
    this.#cells = cells;
    this.#line = line;
    const timeMs = this.#time();
    const record = {
      timeMs,
      speedMps: this.#number('speed_mps'),
      cadenceRpm: this.#number('cadence_rpm'),
      powerW: this.#number('power_w'),
      distanceM: this.#number('distance_m'),
      pathM: NaN,
    };
    if (Number.isNaN(timeMs) || !this.#gear(timeMs) || measures(record)) this.#draft.add(record);
    else this.#gearsAlone.push(record);
  }

  end(): RideDraft {
    if (!this.#header) this.#refuse();
    const long = this.#long.message(this.#file);
    if (long) this.#draft.warn('long-rows', long);
    if (this.#draft.length === 0) for (const record of this.#gearsAlone) this.#draft.add(record);
    const bad = this.#bad.message();
    if (bad) this.#draft.warn('bad-values', bad);
    if (this.#withoutZone) this.#draft.warn('no-time-zone', 'Times name no time zone; they were taken as UTC.');
    return this.#draft;
  }

  #begin(cells: readonly string[]): void {
    const header = csvHeader(cells);
    if (header.at.size === 0) this.#refuse();
    if (!header.at.has('time') && !header.at.has('time_s')) {
      throw new FileError(
        this.#file,
        'no-time',
        'has no column time or time_s',
        'Add one of them: ISO 8601, or seconds.',
      );
    }
    if (header.unknown.length > 0) {
      const named = header.unknown.slice(0, 8).map((name) => name.slice(0, 40));
      const more = header.unknown.length > named.length ? ' and more' : '';
      this.#draft.warn('unknown-columns', `Columns that mean nothing here were left out: ${named.join(', ')}${more}.`);
    }
    if (header.repeated.length > 0)
      this.#draft.warn(
        'repeated-columns',
        `Columns that stand in the header line more than once: ${header.repeated.join(', ')}. Of each the first was read.`,
      );
    this.#header = header;
  }

  #refuse(): never {
    throw new FileError(
      this.#file,
      'unknown-format',
      'is text, but neither TCX, GPX nor CSV with columns known here',
      `The first line of a CSV ride names its columns, any of ${CSV_COLUMNS.join(', ')}.`,
    );
  }

  #cell(column: CsvColumn): string {
    const at = this.#header?.at.get(column);
    return at === undefined ? '' : (this.#cells[at] ?? '').trim();
  }

  #time(): number {
    const column = this.#header?.at.has('time') ? 'time' : 'time_s';
    const cell = this.#cell(column);
    const read = column === 'time' ? isoTimeMs(cell) : Math.round(this.#number(column) * 1000);
    const timeMs = calendarTimeMs(read);
    if (Number.isNaN(timeMs)) {
      // a number that is none was noted as it was read
      if (cell !== '' && (column === 'time' || !Number.isNaN(read)))
        this.#bad.add(`line ${this.#line}, ${column}`, cell);
    } else if (column === 'time' && !hasTimeZone(cell)) this.#withoutZone = true;
    return timeMs;
  }

  #number(column: CsvColumn): number {
    const cell = this.#cell(column);
    if (cell === '' || cell.toLowerCase() === 'nan') return NaN;
    const text = this.#decimalComma ? cell.replace(',', '.') : cell;
    const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i.test(text) ? Number(text) : NaN;
    if (!Number.isFinite(value)) {
      this.#bad.add(`line ${this.#line}, ${column}`, cell);
      return NaN;
    }
    return value;
  }

  #teeth(column: CsvColumn, unchanged: number): number {
    const value = this.#number(column);
    if (Number.isNaN(value)) return unchanged;
    if (Number.isInteger(value) && value > 0 && value < 255) return value;
    this.#bad.add(`line ${this.#line}, ${column}`, this.#cell(column));
    return unchanged;
  }

  /** Keeps the gear of a row; false where it names none, or the one before. */
  #gear(timeMs: number): boolean {
    const rear = this.#teeth('rear_teeth', this.#rear);
    const front = this.#teeth('front_teeth', this.#front);
    if (rear === this.#rear && front === this.#front) return false;
    this.#rear = rear;
    this.#front = front;
    this.#draft.addGear({ timeMs, rearTeeth: rear, frontTeeth: front, rearPosition: 0, frontPosition: 0 });
    return true;
  }
}
