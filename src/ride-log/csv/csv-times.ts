import { median } from 'd3-array';
import { FileError } from '../../errors/file-error.ts';
import type { BadValues } from '../bad-values.ts';
import { calendarTimeMs } from '../calendar-time.ts';
import { hasTimeZone, isoTimeMs } from '../iso-time.ts';
import { csvNumber } from './csv-number.ts';

/** Rows of `time_s` further apart than this, over at least so many steps, are no seconds: no ride is written every three minutes. */
const MOST_APART_S = 200;
const LEAST_STEPS = 10;
/** So many cells are kept word for word until it is known whether they can be read. */
const KEPT_CELLS = 8;

/** Reads the time cells of a CSV ride, from the column `time` (ISO 8601) or else `time_s` (seconds, or milliseconds where the steps say so). */
export class CsvTimes {
  readonly #column: 'time' | 'time_s';
  readonly #decimalComma: boolean;
  readonly #bad: BadValues;
  /** First cell that cannot be read. */
  #first: { readonly line: number; readonly cell: string } | null = null;
  readonly #beyondCalendar: { readonly row: number; readonly line: number; readonly cell: string }[] = [];
  #rows = 0;
  #withoutZone = false;

  constructor(column: 'time' | 'time_s', decimalComma: boolean, bad: BadValues) {
    this.#column = column;
    this.#decimalComma = decimalComma;
    this.#bad = bad;
  }

  /** The cell as a number for `toMs`: Unix milliseconds of ISO 8601, else as it stands; NaN where it is empty or cannot be read. */
  read(cell: string, line: number): number {
    const row = this.#rows++;
    if (cell === '') return NaN;
    const iso = this.#column === 'time';
    const value = iso ? calendarTimeMs(isoTimeMs(cell)) : csvNumber(cell, this.#decimalComma);
    if (Number.isNaN(value)) {
      if (iso || cell.toLowerCase() !== 'nan') this.#note(line, cell);
    } else if (iso) this.#withoutZone ||= !hasTimeZone(cell);
    else if (Number.isNaN(calendarTimeMs(value * 1000)) && this.#beyondCalendar.length < KEPT_CELLS)
      this.#beyondCalendar.push({ row, line, cell });
    return value;
  }

  /** Turns what was read into Unix milliseconds, in place; NaN where no calendar has them. Gives the warnings that go with it. */
  toMs(values: Float64Array): { readonly code: string; readonly message: string }[] {
    const warnings: { code: string; message: string }[] = [];
    if (this.#withoutZone)
      warnings.push({ code: 'no-time-zone', message: 'Times name no time zone; they were taken as UTC.' });
    if (this.#column === 'time') return warnings;
    const step = usualStep(values);
    if (step >= MOST_APART_S)
      warnings.push({
        code: 'time-unit',
        message: `time_s goes up by ${step.toLocaleString('en')} from row to row: it was read as milliseconds.`,
      });
    const perUnit = step >= MOST_APART_S ? 1 : 1000;
    for (let i = 0; i < values.length; i++) values[i] = calendarTimeMs(Math.round(values[i] * perUnit));
    for (const { row, line, cell } of this.#beyondCalendar) if (Number.isNaN(values[row])) this.#note(line, cell);
    return warnings;
  }

  /** The error for a file without a single time that can be read; null where no cell held anything. */
  unreadable(file: string): FileError | null {
    if (!this.#first) return null;
    const { line, cell } = this.#first;
    return new FileError(
      file,
      'no-time',
      `column ${this.#column}, line ${line}: '${cell.slice(0, 30)}' cannot be read as a time`,
      this.#mend(cell),
    );
  }

  #mend(cell: string): string {
    if (this.#column === 'time_s')
      return 'Write seconds, as 12.5; a date and time goes into a column time, as 2026-06-01T08:00:00Z.';
    if (/^\d+([.,]\d+)?$/.test(cell))
      return 'Seconds go into a column time_s; the column time is written 2026-06-01T08:00:00Z.';
    return 'Write 2026-06-01T08:00:00Z, or seconds from the start as time_s.';
  }

  #note(line: number, cell: string): void {
    this.#first ??= { line, cell };
    this.#bad.add(`line ${line}, ${this.#column}`, cell);
  }
}

/** The usual step from row to row, whichever way they run; 0 where too few steps show it. */
function usualStep(values: Float64Array): number {
  const steps = values.subarray(1).map((value, i) => Math.abs(value - values[i]));
  const known = steps.filter((step) => step > 0);
  return known.length < LEAST_STEPS ? 0 : (median(known) ?? 0);
}
