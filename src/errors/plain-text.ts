import { FileError } from './file-error.ts';

/**
 * The text of a file that people write by hand: in UTF-8, or in UTF-16 with a byte-order mark as some spreadsheets save it.
 *
 * @param file its name, for messages only
 * @throws FileError `not-text`
 */
export function plainText(file: string, bytes: Uint8Array): string {
  const encoding =
    bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : bytes[0] === 0xfe && bytes[1] === 0xff ? 'utf-16be' : 'utf-8';
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    throw new FileError(file, 'not-text', 'is not a text in UTF-8', 'Save it again as UTF-8 text.');
  }
}
