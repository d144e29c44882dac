import { FileError } from '../../errors/file-error.ts';
import { counted } from '../../numeric/counted.ts';

/** A few rows may be spoilt; where more than this share has too many cells, it is how the file was written. */
const SPOILT_SHARE = 0.05;

/** Tells the rows of a CSV ride that have more cells than the header line names, empty ones at the end aside, and counts them. */
export class LongRows {
  #rows = 0;
  /** Rows with more cells than columns, were they all empty. */
  #wide = 0;
  #long = 0;
  #first = '';

  isLong(cells: readonly string[], columns: number, line: number): boolean {
    this.#rows++;
    if (cells.length > columns) this.#wide++;
    if (cells.slice(columns).every((cell) => cell.trim() === '')) return false;
    this.#long++;
    if (this.#long === 1)
      this.#first = `line ${line} has ${cells.length} cells, more than the ${columns} of the header line`;
    return true;
  }

  /** A sentence for the rider, null where no row was too long. Throws `bad-csv` where many were. */
  message(file: string): string | null {
    if (this.#long === 0) return null;
    // rows that slipped by one cell may end in an empty one, as where the gear did not change
    if (this.#long > 1 && this.#wide > SPOILT_SHARE * this.#rows)
      throw new FileError(
        file,
        'bad-csv',
        this.#first,
        'Numbers are probably written with a decimal comma: write them with a point, or put semicolons between the cells.',
      );
    return `${counted(this.#long, 'row')} with more cells than the header line: left out (${this.#first}).`;
  }
}
