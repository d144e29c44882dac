import { BadValues } from '../bad-values.ts';
import { calendarTimeMs } from '../calendar-time.ts';
import { isoTimeMs } from '../iso-time.ts';
import { PathLength } from '../path-length.ts';
import type { RideDraft } from '../ride-draft.ts';

/** The point of a TCX or GPX track that is being read. Values that cannot be read are left out and counted. */
export class XmlPoint {
  readonly #bad = new BadValues();
  readonly #path = new PathLength();
  #count = 0;
  #timeMs = NaN;
  #values = NO_VALUES();
  #lat = NaN;
  #lon = NaN;

  begin(): void {
    this.#count++;
    this.#timeMs = NaN;
    this.#values = NO_VALUES();
    this.#lat = NaN;
    this.#lon = NaN;
  }

  time(text: string): void {
    this.#timeMs = calendarTimeMs(isoTimeMs(text));
    if (Number.isNaN(this.#timeMs)) this.#bad.add(`point ${this.#count}, time`, text);
  }

  value(column: XmlColumn, name: string, text: string): void {
    this.#values[column] = this.#number(name, text);
  }

  position(axis: 'lat' | 'lon', text: string): void {
    if (axis === 'lat') this.#lat = this.#number('lat', text);
    else this.#lon = this.#number('lon', text);
  }

  /** The point is whole. */
  addTo(draft: RideDraft): void {
    draft.add({ timeMs: this.#timeMs, ...this.#values, pathM: this.#path.to(this.#lat, this.#lon) });
  }

  badValues(): string | null {
    return this.#bad.message();
  }

  #number(name: string, text: string): number {
    const trimmed = text.trim();
    if (trimmed === '') return NaN;
    const value = Number(trimmed);
    if (Number.isFinite(value)) return value;
    if (!/^nan$/i.test(trimmed)) this.#bad.add(`point ${this.#count}, ${name}`, text);
    return NaN;
  }
}

/** Columns that a point may carry. */
export type XmlColumn = 'speedMps' | 'cadenceRpm' | 'powerW' | 'distanceM';

const NO_VALUES = (): Record<XmlColumn, number> => ({ speedMps: NaN, cadenceRpm: NaN, powerW: NaN, distanceM: NaN });
