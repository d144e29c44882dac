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
  const elements = new XmlElements(file, visitorFor);
  let fault: string | null = null;
  let faults = 0;
  parser.on('error', (error) => {
    fault ??= error.message;
    faults++;
  });
  parser.on('attribute', ({ name, value }) => elements.attribute(name, value));
  parser.on('opentag', ({ name }) => elements.open(name));
  parser.on('text', (text) => elements.text(text));
  parser.on('cdata', (text) => elements.text(text));
  parser.on('closetag', ({ name }) => elements.close(name));

  const decoder = textDecoder(file, bytes);
  for (let at = 0; at < bytes.length && faults < MOST_FAULTS; at += CHUNK_BYTES) {
    const end = Math.min(at + CHUNK_BYTES, bytes.length);
    parser.write(decoder.decode(bytes.subarray(at, end), { stream: end < bytes.length }));
  }
  return { cutOff: elements.areOpen, fault };
}

/** The elements that are open at a place in the file: gathers their text and attributes, tells the visitor, keeps the limits. */
class XmlElements {
  readonly #file: string;
  readonly #visitorFor: (root: string) => XmlVisitor;
  #visitor: XmlVisitor | null = null;
  /** Text of each open element so far, the root's first. */
  readonly #texts: string[] = [];
  /** Of the element about to open; its names may repeat, so they are counted apart. */
  #attributes = new Map<string, string>();
  #attributeCount = 0;

  constructor(file: string, visitorFor: (root: string) => XmlVisitor) {
    this.#file = file;
    this.#visitorFor = visitorFor;
  }

  get areOpen(): boolean {
    return this.#texts.length > 0;
  }

  attribute(name: string, value: string): void {
    this.#attributes.set(localName(name), value);
    if (++this.#attributeCount > MOST_ATTRIBUTES)
      this.#refuse(`more than ${MOST_ATTRIBUTES} attributes on one element`);
  }

  open(name: string): void {
    const local = localName(name);
    this.#visitor ??= this.#visitorFor(local);
    if (this.#texts.length >= DEEPEST) this.#refuse(`elements nested more than ${DEEPEST} deep`);
    this.#texts.push('');
    this.#visitor.open(local, this.#attributes);
    this.#attributes = new Map();
    this.#attributeCount = 0;
  }

  text(text: string): void {
    const top = this.#texts.length - 1;
    if (top >= 0 && this.#texts[top].length < LONGEST_TEXT) this.#texts[top] += text.slice(0, LONGEST_TEXT);
  }

  close(name: string): void {
    this.#visitor?.close(localName(name), this.#texts.pop() ?? '');
  }

  #refuse(what: string): never {
    const mend = 'This is no ride; export it again from where it was recorded.';
    throw new FileError(this.#file, 'bad-xml', `is XML with ${what}`, mend);
  }
}

/** An element's name without its prefix, in lower case. */
export const localName = (name: string): string => name.slice(name.indexOf(':') + 1).toLowerCase();
