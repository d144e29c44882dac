import { closeSync, openSync, readSync } from 'node:fs';

const BYTES = 4096;

/** The first bytes of a file, at most 4096; none where it cannot be read, as a folder cannot. */
export function fileBeginning(path: string): Buffer {
  const buffer = Buffer.alloc(BYTES);
  let file: number;
  try {
    file = openSync(path, 'r');
  } catch {
    return Buffer.alloc(0);
  }
  try {
    return buffer.subarray(0, readSync(file, buffer));
  } catch {
    return Buffer.alloc(0);
  } finally {
    closeSync(file);
  }
}
