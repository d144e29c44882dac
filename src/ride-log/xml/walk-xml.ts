import { SaxesParser } from 'saxes';
import { FileError } from '../../errors/file-error.ts';
import { textDecoder } from '../decode-text.ts';

/** Deepest nesting that is read; rides need less than ten. */
const DEEPEST = 64;
const MOST_ATTRIBUTES = 100;
/** After this many faults a file is not read on. */
export const MOST_FAULTS = 100;
/** Values are shorter; more text than this is not kept. */
export const LONGEST_TEXT = 256;
/** XML is decoded and read so much at a time. */
export const CHUNK_BYTES = 1 << 16;

/** Told of elements as they pass. Names are local (no prefix) and lower case: prefixes vary, and some writers misspell. */
export interface XmlVisitor {
  open(name: string, attributes: ReadonlyMap<string, string>): void;
  /** `text` is the element's own text. */
  close(name: string, text: string): void;
}

/** How a walk ended. `cutOff`: elements were left open. `fault`: the first thing that was wrong with the XML; null: nothing. */
export interface XmlWalk {
  readonly cutOff: boolean;
  readonly fault: string | null;
}

/**
 * Reads XML chunk by chunk by saxes, which knows no external entities and expands none of the document's own. Goes on
 * behind small faults. `visitorFor` picks a visitor by the root element's name. Throws `bad-xml` for nesting or attributes beyond all
 * sense, and whatever the visitor throws.
 */
export function walkXml(file: string, bytes: Uint8Array, visitorFor: (root: string) => XmlVisitor): XmlWalk {
  const parser = new SaxesParser({ xmlns: false, position: false });
  let visitor: XmlVisitor | null = null;
  const texts: string[] = [];
  let attributes = new Map<string, string>();
  let attributeCount = 0;
  let fault: string | null = null;
  let faults = 0;
  const senseless = (what: string): never => {
    throw new FileError(
      file,
      'bad-xml',
      `is XML with ${what}`,
      'This is no ride; export it again from where it was recorded.',
    );
  };
  const onText = (text: string): void => {
    const top = texts.length - 1;
    if (top >= 0 && texts[top].length < LONGEST_TEXT) texts[top] += text.slice(0, LONGEST_TEXT);
  };
  parser.on('error', (error) => {
    fault ??= error.message;
    faults++;
  });
  parser.on('attribute', ({ name, value }) => {
    attributes.set(localName(name), value);
    if (++attributeCount > MOST_ATTRIBUTES) senseless(`more than ${MOST_ATTRIBUTES} attributes on one element`);
  });
  parser.on('opentag', ({ name }) => {
    const local = localName(name);
    visitor ??= visitorFor(local);
    if (texts.length >= DEEPEST) senseless(`elements nested more than ${DEEPEST} deep`);
    texts.push('');
    visitor.open(local, attributes);
    attributes = new Map();
    attributeCount = 0;
  });
  parser.on('text', onText);
  parser.on('cdata', onText);
  parser.on('closetag', ({ name }) => visitor?.close(localName(name), texts.pop() ?? ''));

  const decoder = textDecoder(file, bytes);
  for (let at = 0; at < bytes.length && faults < MOST_FAULTS; at += CHUNK_BYTES) {
    const end = Math.min(at + CHUNK_BYTES, bytes.length);
    parser.write(decoder.decode(bytes.subarray(at, end), { stream: end < bytes.length }));
  }
  const cutOff = texts.length > 0;
  return { cutOff, fault };
}

/** An element's name without its prefix, in lower case. */
export const localName = (name: string): string => name.slice(name.indexOf(':') + 1).toLowerCase();
