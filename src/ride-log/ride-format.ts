import { FileError } from '../errors/file-error.ts';
import { textDecoder } from './decode-text.ts';
import { nextFitHeader } from './fit/fit-header.ts';
import { otherKind } from './other-kind.ts';
import { packedWith } from './packed-with.ts';

/** The outside shape of a file: which reader to give it to. TCX and GPX are told apart by their root element. */
export type RideFormat = 'fit' | 'xml' | 'csv';

const MEND = 'Give a FIT, TCX, GPX or CSV ride.';
/** As much of a text file as is looked at. */
const HEAD = 4096;

/**
 * Tells a ride's format by its content, never by its name. Throws `empty`, `packed`, `encoding` or `unknown-format`.
 */
export function rideFormat(file: string, bytes: Uint8Array): RideFormat {
  if (bytes.length === 0) throw new FileError(file, 'empty', 'is empty', 'Copy it from the device again.');
  if (nextFitHeader(bytes.subarray(0, 14), 0) === 0) return 'fit';
  const other = otherKind(bytes);
  if (other) throw new FileError(file, 'unknown-format', `is ${other} and no ride log`, MEND);
  const packing = packedWith(bytes);
  if (packing) throw new FileError(file, 'packed', `is packed with ${packing}`, 'Unpack it and give the file within.');
  const head = textDecoder(file, bytes)
    .decode(bytes.subarray(0, HEAD))
    .replace(/^\uFEFF/, '')
    .trimStart();
  if (head === '' && isBlank(file, bytes))
    throw new FileError(file, 'empty', 'holds nothing but empty lines', 'Copy it from the device again.');
  if (head.startsWith('<')) return 'xml';
  if (!isText(head)) {
    const fitName = /\.fit$/i.test(file) ? ' though it is named like FIT' : '';
    throw new FileError(file, 'unknown-format', `is neither FIT nor text${fitName}`, MEND);
  }
  return 'csv';
}

const isBlank = (file: string, bytes: Uint8Array): boolean => textDecoder(file, bytes).decode(bytes).trim() === '';

/** A text with so large a share of characters that no text holds is none; a few are damage. */
const MOST_UNPRINTABLE = 0.1;

function isText(head: string): boolean {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  const unprintable = head.match(/[\u0000-\u0008\u000E-\u001F\uFFFD]/g)?.length ?? 0;
  return !head.includes('\0') && unprintable <= MOST_UNPRINTABLE * head.length;
}
