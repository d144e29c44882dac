import { FitBaseType, type FitEncoderField } from 'fit-file-parser/encoder';

const field = (number: number, baseType: FitBaseType, size: number, value: number): FitEncoderField => ({
  number,
  baseType,
  size,
  value,
});

/** A field of a FIT message that holds a word of a list: number of the field, then the value as it is stored. */
export const enumField = (number: number, value: number) => field(number, FitBaseType.Enum, 1, value);
/** An unsigned field of one byte. */
export const byteField = (number: number, value: number) => field(number, FitBaseType.Uint8, 1, value);
/** The same of two bytes. */
export const shortField = (number: number, value: number) => field(number, FitBaseType.Uint16, 2, value);
/** The same of four bytes. */
export const longField = (number: number, value: number) => field(number, FitBaseType.Uint32, 4, value);
