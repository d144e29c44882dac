import { fitCrcByNibbles } from './fit-crc-by-nibbles.ts';

/** Sizes and base-type bytes of FIT types. */
const TYPES = {
  enum: { size: 1, byte: 0x00 },
  sint8: { size: 1, byte: 0x01 },
  uint8: { size: 1, byte: 0x02 },
  uint8z: { size: 1, byte: 0x0a },
  uint16: { size: 2, byte: 0x84 },
  sint32: { size: 4, byte: 0x85 },
  uint32: { size: 4, byte: 0x86 },
  string: { size: 16, byte: 0x07 },
  bytes3: { size: 3, byte: 0x0d },
} as const;
type FitType = keyof typeof TYPES;
export type FitFieldSpec = readonly [number: number, type: FitType];

/** A value: a number of the field's type, or bytes as they shall stand. */
type FitValue = number | readonly number[];

/** How a segment is closed. By default all is right. */
export interface FrameOptions {
  readonly headerSize?: 12 | 14;
  /** What the header says; by default the truth. */
  readonly dataSize?: number;
  readonly headerCrc?: number;
  readonly crc?: number;
  /** Leave the closing CRC out. */
  readonly noCrc?: boolean;
}

/** Writes one FIT segment, record by record: the tests' own, independent of the reader. */
export class FitEncoder {
  readonly #bytes: number[] = [];
  readonly #fields: (readonly FitFieldSpec[])[] = [];
  readonly #bigEndian: boolean;

  constructor(options: { bigEndian?: boolean } = {}) {
    this.#bigEndian = options.bigEndian ?? false;
  }

  /** `developer`: number, size and index of developer fields, whose bytes `record` takes last. */
  define(
    local: number,
    message: number,
    fields: readonly FitFieldSpec[],
    developer: readonly (readonly [number, number, number])[] = [],
  ): this {
    this.#fields[local] = fields;
    this.#bytes.push(0x40 | (developer.length > 0 ? 0x20 : 0) | local, 0, this.#bigEndian ? 1 : 0);
    this.#number(message, 2);
    this.#bytes.push(fields.length);
    for (const [number, type] of fields) this.#bytes.push(number, TYPES[type].size, TYPES[type].byte);
    if (developer.length > 0) this.#bytes.push(developer.length, ...developer.flat());
    return this;
  }

  record(local: number, values: readonly FitValue[], developerBytes: readonly number[] = []): this {
    this.#bytes.push(local);
    this.#values(this.#fields[local], values);
    this.#bytes.push(...developerBytes);
    return this;
  }

  /** A record with a compressed header; `values` leave out a time stamp that the definition lists. */
  compressed(local: number, offsetS: number, values: readonly FitValue[]): this {
    this.#bytes.push(0x80 | (local << 5) | offsetS);
    const fields = this.#fields[local].filter(([number]) => number !== 253);
    this.#values(fields, values);
    return this;
  }

  raw(...bytes: number[]): this {
    this.#bytes.push(...bytes);
    return this;
  }

  segment(options: FrameOptions = {}): Uint8Array<ArrayBuffer> {
    const headerSize = options.headerSize ?? 14;
    const header = new Uint8Array(headerSize);
    const view = new DataView(header.buffer);
    header.set([headerSize, 0x20, 0x5c, 0x08, 0, 0, 0, 0, 0x2e, 0x46, 0x49, 0x54]);
    view.setUint32(4, options.dataSize ?? this.#bytes.length, true);
    if (headerSize === 14) view.setUint16(12, options.headerCrc ?? fitCrcByNibbles(header.subarray(0, 12)), true);
    const body = Uint8Array.from([...header, ...this.#bytes]);
    if (options.noCrc) return body;
    const crc = options.crc ?? fitCrcByNibbles(body);
    return Uint8Array.from([...body, crc & 0xff, crc >> 8]);
  }

  #values(fields: readonly FitFieldSpec[], values: readonly FitValue[]): void {
    fields.forEach(([, type], i) => {
      const value = values[i];
      if (typeof value === 'number') this.#number(value, TYPES[type].size);
      else for (let k = 0; k < TYPES[type].size; k++) this.#bytes.push(value[k] ?? 0);
    });
  }

  #number(value: number, size: number): void {
    const bytes = Array.from({ length: size }, (_, i) => Math.floor(value / 256 ** i) & 0xff);
    this.#bytes.push(...(this.#bigEndian ? bytes.reverse() : bytes));
  }
}

/** Segments one behind another, as some recorders write them. */
export const chain = (...segments: Uint8Array[]): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(segments.flatMap((segment) => [...segment]));
