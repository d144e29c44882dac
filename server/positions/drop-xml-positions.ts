import { SaxesParser, type SaxesTagPlain } from 'saxes';
import { textDecoder } from '../../src/ride-log/decode-text.ts';
import { isPosition } from '../../src/ride-log/path-length.ts';
import { CHUNK_BYTES, LONGEST_TEXT, localName, MOST_FAULTS } from '../../src/ride-log/xml/walk-xml.ts';
import { EquatorLine, type PlacelessFile, type PositionTrace } from './position-trace.ts';

/** Elements left out with all they hold: routes, courses, lone points, and what the formats name for a place. */
const leftOut =
  /^(rte|wpt|courses|coursepoint|bounds|folders|(begin|end)?position|lat|lon|latitude|longitude|latitudedegrees|longitudedegrees)$/i;
const keptAttributes = /^(xmlns(:.*)?|version|xsi:type|sport|starttime|cadencesensor)$/i;
/** Elements whose numbers are kept, those that the readers read: of a number in any other nobody can tell that it is no place. */
const counted = /^(distancemeters|speed|cadence|cad|power|powerinwatts|watts)$/i;
const number = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,3})?$/;
const time = /^\d{4}-\d\d-\d\d(T\d\d:\d\d(:\d\d([.,]\d{1,9})?)?(Z|[+-]\d\d(:?\d\d)?)?)?$/;
/** Elements whose words are kept, since they say what was ridden and how, not where. */
const worded = /^(type|intensity|triggermethod|sensorstate)$/i;
/** Words without figures, or a code of two: a place can hide in more. */
const shortWords = /^(\D{1,40}|\d{1,2})$/s;

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/**
 * Writes a TCX or GPX file anew without its positions. Of the rest, structure, times and the numbers that are read are
 * kept; other numbers, names, notes and every other text go, since a place can hide in them. A file that is cut off stays cut off.
 *
 * @param file its name, for messages only
 */
export function dropXmlPositions(file: string, bytes: Uint8Array, trace: PositionTrace): PlacelessFile {
  const cleaner = new XmlCleaner(trace);
  const decoder = textDecoder(file, bytes);
  for (let at = 0; at < bytes.length && cleaner.faults < MOST_FAULTS; at += CHUNK_BYTES) {
    const end = Math.min(at + CHUNK_BYTES, bytes.length);
    cleaner.write(decoder.decode(bytes.subarray(at, end), { stream: end < bytes.length }));
  }
  return cleaner.end();
}

class XmlCleaner {
  faults = 0;
  readonly #parser = new SaxesParser({ position: false });
  readonly #line = new EquatorLine();
  readonly #open: string[] = [];
  readonly #parts: Uint8Array[] = [];
  #text = '<?xml version="1.0" encoding="UTF-8"?>\n';
  /** How deep within left-out elements; 0 outside. */
  #skipped = 0;
  #words = '';
  #found = 0;
  /** TCX: the position of the track point being read, while within it. */
  #place: { name: string; lat: number; lon: number } | null = null;

  constructor(readonly trace: PositionTrace) {
    this.#parser.on('error', () => {
      this.faults++;
    });
    this.#parser.on('opentag', (tag) => this.#opened(tag as SaxesTagPlain));
    this.#parser.on('closetag', (tag) => this.#closed(tag.name));
    this.#parser.on('text', (text) => this.#read(text));
    this.#parser.on('cdata', (text) => this.#read(text));
  }

  write(text: string): void {
    this.#parser.write(text);
    if (this.#text.length > CHUNK_BYTES) this.#flush();
  }

  end(): PlacelessFile {
    this.#flush();
    return { bytes: Buffer.concat(this.#parts), found: this.#found };
  }

  #flush(): void {
    this.#parts.push(new TextEncoder().encode(this.#text));
    this.#text = '';
  }

  #read(text: string): void {
    if (this.#words.length < LONGEST_TEXT) this.#words += text.slice(0, LONGEST_TEXT);
  }

  #opened(tag: SaxesTagPlain): void {
    this.#takeWords();
    const name = localName(tag.name);
    const parent = this.#open.at(-1);
    this.#open.push(name);
    if (this.#place || this.#skipped > 0) {
      this.#skipped++;
      return;
    }
    if (name === 'position' && parent === 'trackpoint') {
      this.#place = { name: tag.name, lat: Number.NaN, lon: Number.NaN };
      return;
    }
    if (leftOut.test(name)) {
      this.#skipped = 1;
      return;
    }
    const attributes = Object.entries(tag.attributes).filter(([key]) => keptAttributes.test(key));
    if (name === 'trkpt') attributes.push(...this.#pointAttributes(tag.attributes));
    this.#text += `<${tag.name}${attributes.map(([key, value]) => ` ${key}="${escaped(value)}"`).join('')}>`;
  }

  #closed(qualified: string): void {
    this.#takeWords();
    this.#open.pop();
    if (this.#skipped > 0) this.#skipped--;
    else if (this.#place) {
      this.#writePlace(this.#place);
      this.#place = null;
    } else this.#text += `</${qualified}>`;
  }

  #takeWords(): void {
    const words = this.#words.trim();
    this.#words = '';
    const name = this.#open.at(-1) ?? '';
    if (words === '') return;
    if (this.#place && this.#skipped === 1) {
      if (name === 'latitudedegrees') this.#place.lat = Number(words);
      if (name === 'longitudedegrees') this.#place.lon = Number(words);
    }
    if (this.#place || this.#skipped > 0) return;
    const kept = counted.test(name) ? number : worded.test(name) ? shortWords : time;
    if (kept.test(words)) this.#text += escaped(words);
  }

  #stand(lat: number, lon: number): string | null {
    if (isPosition(lat, lon)) this.#found++;
    const along = this.trace === 'none' ? null : this.#line.next(lat, lon);
    if (along === null) return null;
    return this.trace === 'distances' ? along.toFixed(9) : '0';
  }

  #pointAttributes(attributes: Record<string, string>): [string, string][] {
    const stand = this.#stand(Number(attributes.lat ?? 'none'), Number(attributes.lon ?? 'none'));
    return stand === null
      ? []
      : [
          ['lat', '0'],
          ['lon', stand],
        ];
  }

  #writePlace(place: { name: string; lat: number; lon: number }): void {
    const stand = this.#stand(place.lat, place.lon);
    if (stand === null) return;
    const prefix = place.name.slice(0, place.name.length - 'Position'.length);
    this.#text +=
      `<${prefix}Position><${prefix}LatitudeDegrees>0</${prefix}LatitudeDegrees>` +
      `<${prefix}LongitudeDegrees>${stand}</${prefix}LongitudeDegrees></${prefix}Position>`;
  }
}
