import { fitCrc } from '../../src/ride-log/fit/fit-crc.ts';
import { fitHeader } from '../../src/ride-log/fit/fit-header.ts';
import { fitSegments } from '../../src/ride-log/fit/fit-segments.ts';
import { blankField, type DefinedField, mayTellAPlace, RECORD } from './fit-fields.ts';
import { EquatorLine, type PlacelessFile, type PositionTrace } from './position-trace.ts';

/** A reserved header bit: no reader takes it for a record, and no header can be spelt with it. */
const NO_RECORD = 0x10;
const DEGREES = 180 / 2 ** 31;
const NOWHERE = 0x7fffffff;

interface Definition {
  readonly message: number;
  readonly littleEndian: boolean;
  readonly fields: readonly DefinedField[];
  readonly blanked: readonly DefinedField[];
  readonly lat: DefinedField | undefined;
  readonly lon: DefinedField | undefined;
  readonly timeOffset: number;
  readonly size: number;
}

/**
 * Takes the positions out of a FIT file, in place of each field: the file keeps its length, its other values and its
 * damage. Whatever cannot be read (behind a broken record, between segments) is overwritten, since nobody can tell
 * what it holds. Right check sums are made right again, wrong ones stay wrong.
 */
export function dropFitPositions(original: Uint8Array, trace: PositionTrace): PlacelessFile {
  const bytes = original.slice();
  let found = 0;
  const line = new EquatorLine();
  let done = 0;
  for (const segment of fitSegments(original)) {
    if (segment.end <= segment.start) continue;
    const headerAt = segment.start - (fitHeader(original, segment.start - 14)?.size === 14 ? 14 : 12);
    bytes.fill(NO_RECORD, done, headerAt);
    found += new SegmentCleaner(bytes, segment.start, segment.end, trace, line).clean();
    done = segment.end;
    if (segment.open) continue;
    const right = fitCrc(original, headerAt, segment.end + 2) === 0;
    const crc = fitCrc(bytes, headerAt, segment.end) ^ (right ? 0 : 0x5555);
    bytes[segment.end] = crc & 0xff;
    bytes[segment.end + 1] = crc >> 8;
    done = segment.end + 2;
  }
  if (done > 0) bytes.fill(NO_RECORD, done);
  return { bytes, found };
}

/** Walks every record of one segment, as the ride reader does, and blanks as it goes. */
class SegmentCleaner {
  readonly #definitions: (Definition | undefined)[] = new Array(16).fill(undefined);
  readonly #view: DataView;
  #found = 0;

  constructor(
    readonly bytes: Uint8Array,
    readonly start: number,
    readonly end: number,
    readonly trace: PositionTrace,
    readonly line: EquatorLine,
  ) {
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  }

  /** Returns how many records had a position. */
  clean(): number {
    let at = this.start;
    while (at < this.end) {
      const header = this.bytes[at];
      const next = (header & 0xc0) === 0x40 ? this.#define(at) : this.#record(at);
      if (next === -1) {
        this.bytes.fill(NO_RECORD, at, this.end);
        break;
      }
      at = next;
    }
    return this.#found;
  }

  /** Reads a definition; the place behind it, `end` where it is cut off, -1 where it is none. */
  #define(at: number): number {
    const { bytes, end } = this;
    const header = bytes[at];
    if (header & 0x10) return -1;
    if (at + 6 > end) return end;
    if (bytes[at + 2] > 1) return -1;
    const littleEndian = bytes[at + 2] === 0;
    const message = this.#view.getUint16(at + 3, littleEndian);
    const fieldsEnd = at + 6 + bytes[at + 5] * 3;
    if (fieldsEnd > end) return end;
    const fields: DefinedField[] = [];
    let size = 0;
    let cursor = at + 6;
    for (; cursor < fieldsEnd; cursor += 3) {
      fields.push({ number: bytes[cursor], size: bytes[cursor + 1], baseType: bytes[cursor + 2], offset: size });
      size += bytes[cursor + 1];
    }
    const developer: DefinedField[] = [];
    if (header & 0x20) {
      if (cursor + 1 > end) return end;
      const developerEnd = cursor + 1 + bytes[cursor] * 3;
      if (developerEnd > end) return end;
      for (cursor += 1; cursor < developerEnd; cursor += 3) {
        const field = { number: bytes[cursor], size: bytes[cursor + 1], baseType: 0x0d, offset: size };
        if (field.size > 2) developer.push(field);
        size += field.size;
      }
    }
    const place = (number: number) =>
      message === RECORD ? fields.find((field) => field.number === number && field.size === 4) : undefined;
    const [lat, lon] = [place(0), place(1)];
    const blanked = fields.filter((field) => field !== lat && field !== lon && mayTellAPlace(message, field));
    this.#definitions[header & 0x0f] = {
      message,
      littleEndian,
      fields,
      blanked: [...blanked, ...developer],
      lat,
      lon,
      timeOffset: fields.find((field) => field.number === 253 && field.size === 4)?.offset ?? -1,
      size,
    };
    return cursor;
  }

  /** Blanks one data record; the place behind it, `end` where it is cut off, -1 where it is none. */
  #record(at: number): number {
    const { bytes, end } = this;
    const header = bytes[at];
    const compressed = (header & 0x80) !== 0;
    const definition = this.#definitions[compressed ? (header >> 5) & 3 : header & 0x0f];
    if (!definition || (!compressed && header & 0x30)) return -1;
    const shortened = compressed && definition.timeOffset >= 0 ? 4 : 0;
    const next = at + 1 + definition.size - shortened;
    if (next > end) {
      bytes.fill(0xff, at + 1, end);
      return end;
    }
    const place = (field: DefinedField): number =>
      at + 1 + field.offset - (field.offset > definition.timeOffset ? shortened : 0);
    for (const field of definition.blanked)
      blankField(bytes, place(field), field.size, field.baseType, definition.littleEndian);
    const { lat, lon, littleEndian } = definition;
    if (lat && lon) this.#position(place(lat), place(lon), littleEndian);
    else if (lat || lon) this.#view.setInt32(place((lat ?? lon)!), NOWHERE, littleEndian);
    return next;
  }

  #position(latAt: number, lonAt: number, littleEndian: boolean): void {
    const lat = this.#view.getInt32(latAt, littleEndian);
    const lon = this.#view.getInt32(lonAt, littleEndian);
    if (lat !== NOWHERE && lon !== NOWHERE) this.#found++;
    const known = this.trace !== 'none' && lat !== NOWHERE && lon !== NOWHERE;
    const stand = known ? this.line.next(lat * DEGREES, lon * DEGREES) : null;
    const along = this.trace === 'distances' ? Math.round((stand ?? 0) / DEGREES) : 0;
    this.#view.setInt32(latAt, stand === null ? NOWHERE : 0, littleEndian);
    this.#view.setInt32(lonAt, stand === null ? NOWHERE : Math.min(along, NOWHERE - 1), littleEndian);
  }
}
