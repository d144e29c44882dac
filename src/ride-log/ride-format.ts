import { FileError } from '../errors/file-error.ts';
import { textDecoder } from './decode-text.ts';
import { nextFitHeader } from './fit/fit-header.ts';

/** The outside shape of a file: which reader to give it to. TCX and GPX are told apart by their root element. */
export type RideFormat = 'fit' | 'xml' | 'csv';

const MEND = 'Give a FIT, TCX, GPX or CSV ride.';
/** First bytes of packed files. */
const PACKED: readonly (readonly [string, readonly number[]])[] = [
  ['gzip', [0x1f, 0x8b]],
  ['zip', [0x50, 0x4b, 0x03, 0x04]],
  ['bzip2', [0x42, 0x5a, 0x68]],
  ['xz', [0xfd, 0x37, 0x7a, 0x58, 0x5a]],
  ['zstd', [0x28, 0xb5, 0x2f, 0xfd]],
  ['7z', [0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c]],
];
/** As much of a text file as is looked at. */
const HEAD = 4096;

/**
 * Tells a ride's format by its content, never by its name. Throws `empty`, `packed`, `encoding` or `unknown-format`.
 */
export function rideFormat(file: string, bytes: Uint8Array): RideFormat {
  if (bytes.length === 0) throw new FileError(file, 'empty', 'is empty', 'Copy it from the device again.');
  if (nextFitHeader(bytes.subarray(0, 14), 0) === 0) return 'fit';
  for (const [name, start] of PACKED) {
    if (start.every((byte, i) => bytes[i] === byte))
      throw new FileError(file, 'packed', `is packed with ${name}`, 'Unpack it and give the file within.');
  }
  const head = textDecoder(file, bytes)
    .decode(bytes.subarray(0, HEAD))
    .replace(/^\uFEFF/, '')
    .trimStart();
  if (head.startsWith('<')) return 'xml';
  if (head.includes('\0') || head === '') {
    const fitName = /\.fit$/i.test(file) ? ' though it is named like FIT' : '';
    throw new FileError(file, 'unknown-format', `is neither FIT nor text${fitName}`, MEND);
  }
  return 'csv';
}
