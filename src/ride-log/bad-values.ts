import { counted } from '../numeric/counted.ts';

/** How many bad values a warning quotes. */
const QUOTED = 3;

/** Collects values that cannot be read: their number, and the first few word for word. */
export class BadValues {
  #count = 0;
  readonly #quoted: string[] = [];

  /** `where` as a rider finds it, for example 'line 7, cadence_rpm'. */
  add(where: string, text: string): void {
    this.#count++;
    if (this.#quoted.length < QUOTED) this.#quoted.push(`${where}: '${text.slice(0, 30)}'`);
  }

  /** A sentence for the rider; null where all was well. */
  message(): string | null {
    if (this.#count === 0) return null;
    const more = this.#count > QUOTED ? '; and more' : '';
    return `${counted(this.#count, 'value')} that cannot be read, left out: ${this.#quoted.join('; ')}${more}.`;
  }
}
