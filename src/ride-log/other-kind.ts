/** Characters, one a byte, that stand at an offset of a file. */
type Piece = readonly [offset: number, characters: string];

/** A kind of file that is no ride, and what stands at its beginning. */
type Signature = readonly [words: string, ...pieces: Piece[]];

const starts = (words: string, ...beginnings: string[]): Signature[] => beginnings.map((one) => [words, [0, one]]);

/** Of the boxes that pictures and films share (ISO 14496-12), the brands of pictures. */
const pictureBrands = ['heic', 'heix', 'hevc', 'mif1', 'msf1', 'avif', 'avis'];

/**
 * Signatures as the formats' own specifications give them, the narrower before the wider; of office documents that are
 * zip files, the entry that stands first in them (ISO 29500, ISO 26300).
 */
const signatures: readonly Signature[] = [
  ...starts('a PNG picture', '\x89PNG\r\n'),
  ...starts('a JPEG picture', '\xFF\xD8\xFF'),
  ...starts('a GIF picture', 'GIF87a', 'GIF89a'),
  ...starts('a TIFF picture', 'II*\0', 'MM\0*'),
  ['a WebP picture', [0, 'RIFF'], [8, 'WEBP']],
  ...pictureBrands.map((brand): Signature => ['a picture', [4, `ftyp${brand}`]]),
  ['a film', [4, 'ftyp']],
  ['a film', [0, 'RIFF'], [8, 'AVI ']],
  ...starts('a film', '\x1AE\xDF\xA3'),
  ['a sound recording', [0, 'RIFF'], [8, 'WAVE']],
  ...starts('a sound recording', 'ID3', 'OggS', 'fLaC'),
  ...starts('a PDF document', '%PDF-'),
  ...starts('an RTF document', '{\\rtf'),
  ...starts('an office document', '\xD0\xCF\x11\xE0'),
  ...['[Content_Types].xml', '_rels/', 'mimetypeapplication/'].map(
    (entry): Signature => ['an office document', [0, 'PK\x03\x04'], [30, entry]],
  ),
];

/** Kinds of text, by the root element, once what may stand before it is taken away. */
const roots: readonly (readonly [words: string, root: RegExp])[] = [
  ['an SVG picture', /^<(!DOCTYPE )?svg[\s>]/i],
  ['a web page', /^<(!DOCTYPE )?html[\s>]/i],
];

/** As many bytes are looked at. */
const BEGINNING = 4096;

/** What a file is that is plainly no ride: "a PNG picture". By its first bytes, never by its name; null where they do not say so. */
export function otherKind(start: Uint8Array): string | null {
  const text = String.fromCharCode(...start.subarray(0, BEGINNING));
  const found = signatures.find(([, ...pieces]) => pieces.every(([at, characters]) => text.startsWith(characters, at)));
  return found?.[0] ?? textKind(text);
}

function textKind(text: string): string | null {
  const root = text
    .replace(/^\xEF\xBB\xBF/, '')
    .replaceAll(/<!--[\s\S]*?-->/g, '')
    .trimStart()
    .replace(/^<\?xml[^>]*>/, '')
    .trimStart();
  return roots.find(([, pattern]) => pattern.test(root))?.[0] ?? null;
}
