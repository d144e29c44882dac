import { fitCrc } from '../../src/ride-log/fit/fit-crc.ts';
import { fitHeader } from '../../src/ride-log/fit/fit-header.ts';
import { type FitField, type FitListing, readFitListing } from '../../src/ride-log/fit/fit-listing.ts';
import { beginsDefinition, hasCompressedTime, localMessage } from '../../src/ride-log/fit/fit-record-header.ts';
import { fitSegments } from '../../src/ride-log/fit/fit-segments.ts';
import { FIT_RECORD } from '../../src/ride-log/fit/fit-wanted.ts';
import { walkFitRecords } from '../../src/ride-log/fit/walk-fit-records.ts';
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
/** Bytes of a definition up to its number of fields. */
const DEFINITION_HEAD = 6;
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
 * damage. Whatever cannot be read (a broken record, bytes between segments) is overwritten, since nobody can tell
 * what it holds. Right check sums are made right again, wrong ones stay wrong. `original` stays as it is.
 */
export function dropFitPositions(original: Uint8Array, trace: PositionTrace): PlacelessFile {
  // Not `slice`: that of a Buffer, which is what files are read into, is a view of the same bytes.
  const bytes = new Uint8Array(original);
  let found = 0;
  const line = new EquatorLine();
  let done = 0;
  for (const segment of fitSegments(original)) {
    if (segment.end <= segment.start) continue;
    const headerAt = segment.start - (fitHeader(original, segment.start - 14)?.size === 14 ? 14 : 12);
    bytes.fill(NO_RECORD, done, headerAt);
    found += new SegmentCleaner(original, bytes, trace, line).clean(segment.start, segment.end);
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

/** Blanks the records of one segment in a copy of it, walking the segment as the ride reader does. */
class SegmentCleaner {
  readonly #definitions: (Definition | undefined)[] = new Array(16).fill(undefined);
  readonly #view: DataView;
  #found = 0;

  /** @param bytes the copy that is cleaned; as long as the original */
  constructor(
    readonly original: Uint8Array,
    readonly bytes: Uint8Array,
    readonly trace: PositionTrace,
    readonly line: EquatorLine,
  ) {
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  }

  /** Cleans the segment from `start` to `end`; returns how many records had a position. */
  clean(start: number, end: number): number {
    const { original, bytes } = this;
    const walk = walkFitRecords(
      original,
      start,
      end,
      () => {},
      (from, to, whole) => {
        if (!whole) bytes.fill(NO_RECORD, from, to);
        else if (beginsDefinition(original[from])) this.#define(from, to);
        else this.#record(from);
      },
    );
    if (walk.stop === 'cut-off') this.#cutOff(walk.at, end);
    else bytes.fill(NO_RECORD, walk.at, end);
    return this.#found;
  }

  #define(at: number, end: number): void {
    const listing = readFitListing(this.original, at, end);
    if (typeof listing === 'string') return;
    const { message, fields, developerFields } = listing;
    const place = (number: number) =>
      message === FIT_RECORD ? fields.findLast((field) => field.number === number && field.size === 4) : undefined;
    const [lat, lon] = [place(LATITUDE), place(LONGITUDE)];
    const blanked = [
      ...fields.filter((field) => field !== lat && field !== lon && mayTellAPlace(message, field)),
      ...developerFields.filter(({ size }) => size > MOST_DEVELOPER_BYTES),
    ];
    this.#definitions[localMessage(this.original[at])] = { ...listing, blanked, lat, lon };
  }

  /** Blanks one data record. */
  #record(at: number): void {
    const { original, bytes } = this;
    const header = original[at];
    const definition = this.#definitions[localMessage(header)];
    if (!definition) return;
    const { timeOffset, littleEndian } = definition;
    const shortened = hasCompressedTime(header) && timeOffset >= 0 ? 4 : 0;
    const place = ({ offset }: FitField): number => at + 1 + offset - (offset > timeOffset ? shortened : 0);
    for (const field of definition.blanked) blankField(bytes, place(field), field.size, field.baseType, littleEndian);
    const { lat, lon } = definition;
    if (lat && lon) this.#position(place(lat), place(lon), littleEndian);
    else if (lat || lon) this.#view.setInt32(place((lat ?? lon)!), NOWHERE, littleEndian);
  }

  /** Blanks what `end` cuts off, so that it stays cut off: all but a record's header byte, or the part of a definition that says how long it is. */
  #cutOff(at: number, end: number): void {
    const kept = beginsDefinition(this.original[at]) ? DEFINITION_HEAD : 1;
    this.bytes.fill(0xff, Math.min(at + kept, end), end);
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
