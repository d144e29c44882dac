import { type FitField, readFitListing } from './fit-listing.ts';
import { FIT_WANTED } from './fit-wanted.ts';

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
  const listing = readFitListing(bytes, at, limit);
  if (listing === 'broken') return { definition: null, end: -1 };
  if (listing === 'cut-off') return { definition: null, end: 0 };
  const { message, littleEndian, size, timeOffset, end } = listing;
  const wanted = FIT_WANTED.get(message);
  const fields: FitField[] = [];
  if (wanted)
    for (const field of listing.fields) {
      if (wanted.get(field.number) !== field.size) continue;
      const listed = fields.findIndex(({ number }) => number === field.number);
      fields[listed === -1 ? fields.length : listed] = field;
    }
  return { definition: { message, littleEndian, size, timeOffset, fields: fields.length ? fields : NO_FIELDS }, end };
}
