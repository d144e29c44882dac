import type { FitField } from '../../src/ride-log/fit/fit-listing.ts';
import { FIT_RECORD, FIT_TIMESTAMP } from '../../src/ride-log/fit/fit-wanted.ts';

/** Base types of FIT fields (low five bits), with the value that means "nothing", low byte first. */
const invalidOf: ReadonlyMap<number, readonly number[]> = new Map([
  [0x01, [0x7f]],
  [0x03, [0xff, 0x7f]],
  [0x05, [0xff, 0xff, 0xff, 0x7f]],
  [0x07, [0x00]],
  [0x0a, [0x00]],
  [0x0b, [0x00, 0x00]],
  [0x0c, [0x00, 0x00, 0x00, 0x00]],
  [0x0e, [0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0x7f]],
  [0x10, [0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00]],
]);

const SINT32 = 0x05;
const STRING = 0x07;
/** sint32, float64 and the 64-bit integers: wide enough for a place, and not used by anything a gear needs. */
const roomForAPlace = new Set([SINT32, 0x09, 0x0e, 0x0f, 0x10]);

const FIELD_DESCRIPTION = 206;
/** file_id, zones, hr and power zones, sport, session, lap, record, event, device_info, activity, software, file_creator, hrv, length, bike_profile, timestamp_correlation, field_description, developer_data_id. */
const keptMessages = new Set([0, 7, 8, 9, 12, 18, 19, 20, 21, 23, 34, 35, 49, 78, 101, 6, 162, FIELD_DESCRIPTION, 207]);
/** Four-byte fields of a record that are no place: distance, accumulated power, time128 and the enhanced values. */
const wideRecordFields = new Set([5, 29, 73, 78, 108, FIT_TIMESTAMP]);

/**
 * True for a field that may tell a place and is blanked: anything in a message that is not known to be harmless, any
 * type that positions are written in, and texts (names of courses, segments and places), save the names of developer
 * fields. Latitude and longitude of a record are handled apart.
 */
export function mayTellAPlace(message: number, field: FitField): boolean {
  if (field.number === FIT_TIMESTAMP) return false;
  if (!keptMessages.has(message)) return true;
  const type = field.baseType & 0x1f;
  if (type === STRING) return message !== FIELD_DESCRIPTION;
  if (roomForAPlace.has(type)) return true;
  return message === FIT_RECORD && field.size >= 4 && !wideRecordFields.has(field.number);
}

/** Writes the value that means "nothing" over a field of `size` bytes at `at`. */
export function blankField(bytes: Uint8Array, at: number, size: number, baseType: number, littleEndian: boolean): void {
  const invalid = invalidOf.get(baseType & 0x1f);
  if (!invalid) {
    bytes.fill(0xff, at, at + size);
    return;
  }
  for (let i = 0; i < size; i++) {
    const within = i % invalid.length;
    bytes[at + i] = invalid[littleEndian ? within : invalid.length - 1 - within];
  }
}
