import { FileError } from '../errors/file-error.ts';

/** Bytes of an XML declaration are looked for this far. */
const DECLARATION_REACH = 256;

/** The encoding of text bytes: by byte-order mark, by zero bytes where UTF-16 has them, by an XML declaration, else UTF-8. */
function textEncoding(bytes: Uint8Array): string {
  const [a, b, c, d] = bytes;
  if (a === 0xff && b === 0xfe && !(c === 0 && d === 0)) return 'utf-16le';
  if (a === 0xfe && b === 0xff) return 'utf-16be';
  if (a > 0 && b === 0 && c > 0 && d === 0) return 'utf-16le';
  if (a === 0 && b > 0 && c === 0 && d > 0) return 'utf-16be';
  const head = String.fromCharCode(...bytes.subarray(0, DECLARATION_REACH));
  return /^\s*(?:\xef\xbb\xbf)?<\?xml[^>]*\sencoding\s*=\s*["']([\w.:-]+)["']/.exec(head)?.[1].toLowerCase() ?? 'utf-8';
}

/** A decoder for `textEncoding`. Throws `encoding` for one this machine does not know. Bad bytes become U+FFFD. */
export function textDecoder(file: string, bytes: Uint8Array): TextDecoder {
  const encoding = textEncoding(bytes);
  try {
    return new TextDecoder(encoding);
  } catch {
    throw new FileError(
      file,
      'encoding',
      `is written in the encoding '${encoding}', which is not known`,
      'Save it as UTF-8.',
    );
  }
}
