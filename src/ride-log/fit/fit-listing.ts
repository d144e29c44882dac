import { FIT_TIMESTAMP } from './fit-wanted.ts';

/** A field within a data record: where it stands after the record's header byte. */
export interface FitField {
  readonly number: number;
  readonly size: number;
  readonly baseType: number;
  readonly offset: number;
}

/** All that a definition message lists. */
export interface FitListing {
  readonly message: number;
  readonly littleEndian: boolean;
  readonly fields: readonly FitField[];
  /** Fields that developers defined, whose base type stands elsewhere: bytes are assumed. */
  readonly developerFields: readonly FitField[];
  /** Bytes of a data record after its header byte, developer fields included. */
  readonly size: number;
  /** Where the four-byte time stamp stands; -1 where there is none. */
  readonly timeOffset: number;
  /** Where the next message stands. */
  readonly end: number;
}

/** Base types, low five bits. */
const UINT32 = 6;
const BYTE = 13;

/** Reads the definition whose header byte stands at `at`. Of two time stamps the last listed counts. */
export function readFitListing(bytes: Uint8Array, at: number, limit: number): FitListing | 'broken' | 'cut-off' {
  if (at + 6 > limit) return 'cut-off';
  const bigEndian = bytes[at + 2];
  if (bigEndian > 1) return 'broken';
  const message = bigEndian ? (bytes[at + 3] << 8) | bytes[at + 4] : bytes[at + 3] | (bytes[at + 4] << 8);
  const fields: FitField[] = [];
  const developerFields: FitField[] = [];
  let timeOffset = -1;
  let size = 0;
  let cursor = at + 6;
  const fieldsEnd = cursor + bytes[at + 5] * 3;
  if (fieldsEnd > limit) return 'cut-off';
  for (; cursor < fieldsEnd; cursor += 3) {
    const field = { number: bytes[cursor], size: bytes[cursor + 1], baseType: bytes[cursor + 2], offset: size };
    if (field.number === FIT_TIMESTAMP && field.size === 4 && (field.baseType & 0x1f) === UINT32) timeOffset = size;
    fields.push(field);
    size += field.size;
  }
  if (bytes[at] & 0x20) {
    if (cursor + 1 > limit) return 'cut-off';
    const developerEnd = cursor + 1 + bytes[cursor] * 3;
    if (developerEnd > limit) return 'cut-off';
    for (cursor += 1; cursor < developerEnd; cursor += 3) {
      developerFields.push({ number: bytes[cursor], size: bytes[cursor + 1], baseType: BYTE, offset: size });
      size += bytes[cursor + 1];
    }
  }
  return { message, littleEndian: !bigEndian, fields, developerFields, size, timeOffset, end: cursor };
}
