import { counted } from '../counted.ts';

/** How many bad cells a warning quotes. */
const QUOTED = 3;

/** Collects cells that cannot be read: their number, and the first few word for word. */
export class BadCells {
  #count = 0;
  readonly #quoted: string[] = [];

  add(line: number, column: string, cell: string): void {
    this.#count++;
    if (this.#quoted.length < QUOTED) this.#quoted.push(`line ${line}, ${column}: '${cell.slice(0, 30)}'`);
  }

  /** A sentence for the rider; null where all was well. */
  message(): string | null {
    if (this.#count === 0) return null;
    const more = this.#count > QUOTED ? ', and more' : '';
    return `${counted(this.#count, 'cell')} could not be read and were left out (${this.#quoted.join('; ')}${more}).`;
  }
}
