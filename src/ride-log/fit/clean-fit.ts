import FitParser, { type ParsedFit } from 'fit-file-parser';
import type { FitDefinition } from './fit-definition.ts';
import { FIT_TIMESTAMP } from './fit-wanted.ts';

/** Bytes of clean records that are decoded at a time: bounds the memory of the decoder's row objects. */
const ROOM = 1 << 16;
/** More than the longest definition and the longest record of wanted fields together. */
const MOST_RECORD = 256;
const HEADER = 14;

/**
 * Writes FIT files that hold only whole records of wanted fields, each with its time stamp, and has fit-file-parser
 * decode them piece by piece.
 *
 * Why the detour: the library refuses a file that is cut off, loses all before a broken record, makes a row object of
 * every field of every message, and lets a developer field called `speed` or `__proto__` overwrite its rows. None of
 * that can be met by what is written here: at most 64 KiB at a time, no developer fields, no record without fields.
 */
export class CleanFit {
  readonly #source: Uint8Array;
  readonly #bytes = new Uint8Array(ROOM);
  readonly #view = new DataView(this.#bytes.buffer);
  readonly #written: (FitDefinition | undefined)[] = new Array(16).fill(undefined);
  readonly #parser = new FitParser({ force: true, mode: 'list' });
  readonly #onDecoded: (decoded: ParsedFit) => void;
  #end = HEADER;

  /** `source`: the bytes that data records are taken from. */
  constructor(source: Uint8Array, onDecoded: (decoded: ParsedFit) => void) {
    this.#source = source;
    this.#onDecoded = onDecoded;
    this.#bytes.set([HEADER, 0x10, 0, 0, 0, 0, 0, 0, 0x2e, 0x46, 0x49, 0x54, 0, 0]);
  }

  /** Takes over one data record; the arguments are those of `FitRecordVisitor`. */
  add(local: number, definition: FitDefinition, at: number, timeLeftOut: boolean, time: number): void {
    if (this.#end + MOST_RECORD > ROOM) this.flush();
    if (this.#written[local] !== definition) this.#define(local, definition);
    const source = this.#source;
    const bytes = this.#bytes;
    bytes[this.#end] = local;
    this.#view.setUint32(this.#end + 1, time, definition.littleEndian);
    let to = this.#end + 5;
    for (const field of definition.fields) {
      const from = at + field.offset - (timeLeftOut && field.offset > definition.timeOffset ? 4 : 0);
      for (let i = 0; i < field.size; i++) bytes[to++] = source[from + i];
    }
    this.#end = to;
  }

  /** Decodes what was written since the last time. */
  flush(): void {
    if (this.#end === HEADER) return;
    this.#view.setUint32(4, this.#end - HEADER, true);
    let decoded: ParsedFit | undefined;
    this.#parser.parse(this.#bytes.buffer.slice(0, this.#end + 2), (error, data) => {
      if (error) throw new Error(`clean FIT records were refused: ${error}`);
      decoded = data;
    });
    this.#end = HEADER;
    this.#written.fill(undefined);
    if (decoded) this.#onDecoded(decoded);
  }

  #define(local: number, definition: FitDefinition): void {
    this.#written[local] = definition;
    const { message, littleEndian, fields } = definition;
    const low = message & 0xff;
    const high = message >> 8;
    const [first, second] = littleEndian ? [low, high] : [high, low];
    const header = [0x40 | local, 0, littleEndian ? 0 : 1, first, second, fields.length + 1];
    const listed = fields.flatMap(({ number, size, baseType }) => [number, size, baseType]);
    this.#bytes.set([...header, FIT_TIMESTAMP, 4, 0x86, ...listed], this.#end);
    this.#end += header.length + 3 + listed.length;
  }
}
