import { readFileSync } from 'node:fs';
import { FileError } from '../errors/file-error.ts';
import { unreadable } from './read-error.ts';

/**
 * Text of a file in UTF-8, or in UTF-16 with a byte-order mark as some spreadsheets save it.
 *
 * @throws FileError `unreadable` or `not-text`
 */
export function readTextFile(path: string): string {
  let bytes: Buffer;
  try {
    bytes = readFileSync(path);
  } catch (error) {
    throw unreadable(path, error);
  }
  const encoding =
    bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : bytes[0] === 0xfe && bytes[1] === 0xff ? 'utf-16be' : 'utf-8';
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    throw new FileError(path, 'not-text', 'is not a text in UTF-8', 'Save it again as UTF-8 text.');
  }
}
