import { counted } from '../../src/numeric/counted.ts';
import { crc32 } from './crc32.ts';
import { placedAt } from './file-path.ts';

/** What is not unpacked: too much for a folder of bikes, and for the memory of a browser. Limits of ours. */
const MOST_FILES = 5000;
const MOST_BYTES = 1e9;

/** Records of a zip file, by the mark each begins with, and the length of what is fixed in them (PKWARE's APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.16). */
const LOCAL = { mark: 0x04034b50, length: 30 } as const;
const LISTED = { mark: 0x02014b50, length: 46 } as const;
const END = { mark: 0x06054b50, length: 22 } as const;
const LONGEST_COMMENT = 0xffff;
/** Stands where a figure needs the longer records for files beyond 4 GB. */
const ELSEWHERE = 0xffffffff;
const STORED = 0;
const DEFLATED = 8;
const ENCRYPTED = 1;

/** What every archive of the program's own has in it. */
const archiveLists = ['manifest.json', 'bikes.json', 'rides.json'];

/** A zip file that cannot be unpacked, and what to do about it. */
export class ZipFault extends Error {
  override readonly name = 'ZipFault';
}

interface Entry {
  readonly path: string;
  readonly flags: number;
  readonly method: number;
  readonly crc: number;
  readonly packedBytes: number;
  readonly bytes: number;
  /** Where its local record begins. */
  readonly at: number;
  readonly modifiedMs: number;
}

const view = async (file: File, from: number, length: number): Promise<DataView> =>
  new DataView(await file.slice(from, from + length).arrayBuffer());

/** Whether a file begins as a zip file with something in it does. */
export async function isZip(file: File): Promise<boolean> {
  const start = await view(file, 0, 4);
  return start.byteLength === 4 && start.getUint32(0, true) === LOCAL.mark;
}

/**
 * The files in a zip file, each with its path below a folder of the zip file's name. Folders themselves are left out.
 *
 * @throws ZipFault where it is damaged, locked, holds too much or is of a kind that is not unpacked
 */
export async function unpackZip(zip: File): Promise<File[]> {
  const entries = (await entriesOf(zip)).filter(({ path }) => !path.endsWith('/'));
  if (archiveLists.every((list) => entries.some(({ path }) => path === list)))
    throw new ZipFault(`${zip.name}: is an archive that cogwright saved. Bring it in under “Your data”.`);
  const bytes = entries.reduce((sum, entry) => sum + entry.bytes, 0);
  if (entries.length > MOST_FILES || bytes > MOST_BYTES)
    throw new ZipFault(
      `${zip.name}: holds more than is unpacked at once, which is ${counted(MOST_FILES, 'file')} or ${MOST_BYTES / 1e6} MB. Unpack it, and choose the folder in parts.`,
    );
  const folder = zip.name.replace(/\.zip$/i, '');
  const files: File[] = [];
  for (const entry of entries) files.push(await unpack(zip, entry, folder));
  return files;
}

const damaged = (zip: File): ZipFault =>
  new ZipFault(`${zip.name}: is damaged or not whole. Pack it again, or unpack it and choose the folder.`);

/** The list at the end of the file. */
async function entriesOf(zip: File): Promise<Entry[]> {
  const from = Math.max(0, zip.size - END.length - LONGEST_COMMENT);
  const tail = await view(zip, from, zip.size - from);
  let at = tail.byteLength - END.length;
  while (at >= 0 && tail.getUint32(at, true) !== END.mark) at--;
  if (at < 0) throw damaged(zip);
  const [count, length, start] = [
    tail.getUint16(at + 10, true),
    tail.getUint32(at + 12, true),
    tail.getUint32(at + 16, true),
  ];
  if (start === ELSEWHERE || length === ELSEWHERE)
    throw new ZipFault(`${zip.name}: is too large to be unpacked here. Unpack it, and choose the folder in parts.`);
  const list = await view(zip, start, length);
  const entries: Entry[] = [];
  for (let next = 0; entries.length < count; ) {
    if (next + LISTED.length > list.byteLength || list.getUint32(next, true) !== LISTED.mark) throw damaged(zip);
    const rest = [28, 30, 32].map((field) => list.getUint16(next + field, true));
    entries.push(entryAt(list, next, rest[0]));
    next += LISTED.length + rest[0] + rest[1] + rest[2];
  }
  return entries;
}

function entryAt(list: DataView, at: number, nameLength: number): Entry {
  const name = new Uint8Array(
    list.buffer,
    at + LISTED.length,
    Math.max(0, Math.min(nameLength, list.byteLength - at - LISTED.length)),
  );
  return {
    path: new TextDecoder().decode(name).replaceAll('\\', '/'),
    flags: list.getUint16(at + 8, true),
    method: list.getUint16(at + 10, true),
    modifiedMs: momentMs(list.getUint16(at + 12, true), list.getUint16(at + 14, true)),
    crc: list.getUint32(at + 16, true),
    packedBytes: list.getUint32(at + 20, true),
    bytes: list.getUint32(at + 24, true),
    at: list.getUint32(at + 42, true),
  };
}

/** Time and day as the two words of a zip file write them, in local time. */
const momentMs = (time: number, day: number): number =>
  new Date(1980 + (day >> 9), ((day >> 5) & 15) - 1, day & 31, time >> 11, (time >> 5) & 63, (time & 31) * 2).getTime();

async function unpack(zip: File, entry: Entry, folder: string): Promise<File> {
  const { path, flags, method, bytes, packedBytes, crc, at, modifiedMs } = entry;
  const called = `${zip.name}, ${path}`;
  if (flags & ENCRYPTED) throw new ZipFault(`${called}: is locked with a password. Pack it again without one.`);
  if (method !== STORED && method !== DEFLATED)
    throw new ZipFault(`${called}: is packed in a way that is not read here. Unpack it, and choose the folder.`);
  const head = await view(zip, at, LOCAL.length);
  if (head.byteLength < LOCAL.length || head.getUint32(0, true) !== LOCAL.mark) throw damaged(zip);
  const from = at + LOCAL.length + head.getUint16(26, true) + head.getUint16(28, true);
  const packed = zip.slice(from, from + packedBytes);
  const whole = method === STORED ? await packed.arrayBuffer() : await inflated(packed, bytes).catch(() => null);
  if (!whole || whole.byteLength !== bytes || crc32(new Uint8Array(whole)) !== crc) throw damaged(zip);
  const name = path.slice(path.lastIndexOf('/') + 1);
  return placedAt(`${folder}/${path}`, new File([whole], name, { lastModified: modifiedMs }));
}

/** What was packed, unpacked; breaks off where it comes to more than it should. */
async function inflated(packed: Blob, bytes: number): Promise<ArrayBuffer> {
  let count = 0;
  const bounded = new TransformStream<Uint8Array, Uint8Array>({
    transform(chunk, out) {
      count += chunk.length;
      if (count > bytes) out.error(new Error('more than it should be'));
      else out.enqueue(chunk);
    },
  });
  const stream = packed.stream().pipeThrough(new DecompressionStream('deflate-raw')).pipeThrough(bounded);
  return new Response(stream).arrayBuffer();
}
