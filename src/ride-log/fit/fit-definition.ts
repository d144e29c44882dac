import { FIT_TIMESTAMP, FIT_WANTED } from './fit-wanted.ts';

/** A field within a data record: where it stands after the record's header byte. */
export interface FitField {
  readonly number: number;
  readonly size: number;
  readonly baseType: number;
  readonly offset: number;
}

/** A definition message, reduced to what a ride needs. */
export interface FitDefinition {
  readonly message: number;
  readonly littleEndian: boolean;
  /** Bytes of a data record after its header byte, developer fields included. */
  readonly size: number;
  /** Where the four-byte time stamp stands; -1 where there is none. */
  readonly timeOffset: number;
  /** Fields a ride needs, of the size they must have, each once (the last listed counts); empty for a message no ride needs. */
  readonly fields: readonly FitField[];
}

const NO_FIELDS: readonly FitField[] = [];

/** Reads the definition whose header byte stands at `at`. `end` is -1 where it is broken, 0 where it is cut off at `limit`. */
export function readFitDefinition(
  bytes: Uint8Array,
  at: number,
  limit: number,
): { definition: FitDefinition | null; end: number } {
  if (at + 6 > limit) return { definition: null, end: 0 };
  const bigEndian = bytes[at + 2];
  if (bigEndian > 1) return { definition: null, end: -1 };
  const message = bigEndian ? (bytes[at + 3] << 8) | bytes[at + 4] : bytes[at + 3] | (bytes[at + 4] << 8);
  const wanted = FIT_WANTED.get(message);
  const fields: FitField[] = [];
  let timeOffset = -1;
  let size = 0;
  let cursor = at + 6;
  const fieldsEnd = cursor + bytes[at + 5] * 3;
  if (fieldsEnd > limit) return { definition: null, end: 0 };
  for (; cursor < fieldsEnd; cursor += 3) {
    const [number, fieldSize, baseType] = [bytes[cursor], bytes[cursor + 1], bytes[cursor + 2]];
    if (number === FIT_TIMESTAMP && fieldSize === 4 && (baseType & 0x1f) === 6) timeOffset = size;
    else if (wanted?.get(number) === fieldSize) {
      const listed = fields.findIndex((field) => field.number === number);
      fields[listed === -1 ? fields.length : listed] = { number, size: fieldSize, baseType, offset: size };
    }
    size += fieldSize;
  }
  if (bytes[at] & 0x20) {
    if (cursor + 1 > limit) return { definition: null, end: 0 };
    const developerEnd = cursor + 1 + bytes[cursor] * 3;
    if (developerEnd > limit) return { definition: null, end: 0 };
    for (cursor += 1; cursor < developerEnd; cursor += 3) size += bytes[cursor + 1];
  }
  return {
    definition: {
      message,
      littleEndian: !bigEndian,
      size,
      timeOffset,
      fields: fields.length ? fields : NO_FIELDS,
    },
    end: cursor,
  };
}
