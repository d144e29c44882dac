import { readFileSync } from 'node:fs';
import { plainText } from '../errors/plain-text.ts';
import { unreadable } from './read-error.ts';

/**
 * Text of a file, see `plainText`.
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
  return plainText(path, bytes);
}
