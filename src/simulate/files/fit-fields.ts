import { FitBaseType, type FitEncoderField } from 'fit-file-parser/encoder';

const field = (number: number, baseType: FitBaseType, size: number, value: number): FitEncoderField => ({
  number,
  baseType,
  size,
  value,
});

/** Fields of a FIT message by the type of their value: number of the field, then the value as it is stored. */
export const enumField = (number: number, value: number) => field(number, FitBaseType.Enum, 1, value);
export const byteField = (number: number, value: number) => field(number, FitBaseType.Uint8, 1, value);
export const shortField = (number: number, value: number) => field(number, FitBaseType.Uint16, 2, value);
export const longField = (number: number, value: number) => field(number, FitBaseType.Uint32, 4, value);
