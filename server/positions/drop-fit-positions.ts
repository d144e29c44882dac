import { fitCrc } from '../../src/ride-log/fit/fit-crc.ts';
import { fitHeader } from '../../src/ride-log/fit/fit-header.ts';
import { type FitField, type FitListing, readFitListing } from '../../src/ride-log/fit/fit-listing.ts';
import {
  beginsDefinition,
  hasCompressedTime,
  isReserved,
  localMessage,
} from '../../src/ride-log/fit/fit-record-header.ts';
import { fitSegments } from '../../src/ride-log/fit/fit-segments.ts';
import { FIT_RECORD } from '../../src/ride-log/fit/fit-wanted.ts';
import { blankField, mayTellAPlace } from './fit-fields.ts';
import { EquatorLine, type PlacelessFile, type PositionTrace } from './position-trace.ts';

/** A reserved header bit: no reader takes it for a record, and no header can be spelt with it. */
const NO_RECORD = 0x10;
/** Degrees of one unit in which FIT counts positions. */
const DEGREES = 180 / 2 ** 31;
const NOWHERE = 0x7fffffff;
/** Fields of a ride's record. */
const LATITUDE = 0;
const LONGITUDE = 1;
/** A developer's field of up to so many bytes is too small for a place. */
const MOST_DEVELOPER_BYTES = 2;

/** A definition with what is done to its data records. */
interface Definition extends FitListing {
  readonly blanked: readonly FitField[];
  readonly lat: FitField | undefined;
  readonly lon: FitField | undefined;
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
      const next = isReserved(header) ? -1 : beginsDefinition(header) ? this.#define(at) : this.#record(at);
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
    const listing = readFitListing(this.bytes, at, this.end);
    if (listing === 'cut-off') return this.end;
    if (listing === 'broken') return -1;
    const { message, fields, developerFields } = listing;
    const place = (number: number) =>
      message === FIT_RECORD ? fields.findLast((field) => field.number === number && field.size === 4) : undefined;
    const [lat, lon] = [place(LATITUDE), place(LONGITUDE)];
    const blanked = [
      ...fields.filter((field) => field !== lat && field !== lon && mayTellAPlace(message, field)),
      ...developerFields.filter(({ size }) => size > MOST_DEVELOPER_BYTES),
    ];
    this.#definitions[localMessage(this.bytes[at])] = { ...listing, blanked, lat, lon };
    return listing.end;
  }

  /** Blanks one data record; the place behind it, `end` where it is cut off, -1 where it is none. */
  #record(at: number): number {
    const { bytes, end } = this;
    const header = bytes[at];
    const definition = this.#definitions[localMessage(header)];
    if (!definition) return -1;
    const { timeOffset, littleEndian } = definition;
    const shortened = hasCompressedTime(header) && timeOffset >= 0 ? 4 : 0;
    const next = at + 1 + definition.size - shortened;
    if (next > end) {
      bytes.fill(0xff, at + 1, end);
      return end;
    }
    const place = ({ offset }: FitField): number => at + 1 + offset - (offset > timeOffset ? shortened : 0);
    for (const field of definition.blanked) blankField(bytes, place(field), field.size, field.baseType, littleEndian);
    const { lat, lon } = definition;
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
