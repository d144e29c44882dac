import type { FileEntry } from '@zip.js/zip.js';
import { sum } from 'd3-array';
import { counted } from '../../src/numeric/counted.ts';
import { placedAt } from './file-path.ts';

/** What is not unpacked: too much for a folder of bikes, and for the memory of a browser. Limits of ours. */
const MOST_FILES = 5000;
const MOST_BYTES = 1e9;

/** The bytes that a zip file with something in it begins with (PKWARE's APPNOTE 6.3, section 4.3.7). */
const BEGINS = [0x50, 0x4b, 0x03, 0x04];

/** What every archive of the program's own has in it. */
const archiveLists = ['manifest.json', 'bikes.json', 'rides.json'];

/** A zip file that cannot be unpacked, and what to do about it. */
export class ZipFault extends Error {
  override readonly name = 'ZipFault';
}

/** Whether a file begins as a zip file with something in it does. */
export async function isZip(file: File): Promise<boolean> {
  const start = new Uint8Array(await file.slice(0, BEGINS.length).arrayBuffer());
  return BEGINS.every((byte, i) => start[i] === byte);
}

/**
 * The files in a zip file, each with its path below a folder of the zip file's name. Folders themselves are left out.
 *
 * @throws ZipFault where it is damaged, locked, holds too much or is of a kind that is not unpacked
 */
export async function unpackZip(zip: File): Promise<File[]> {
  // fetched only when somebody chooses a zip file: most never do
  const { BlobReader, ZipReader, configure } = await import('@zip.js/zip.js');
  configure({ useWebWorkers: false });
  const reader = new ZipReader(new BlobReader(zip), { checkSignature: true });
  try {
    const entries = (await reader.getEntries()).filter((entry): entry is FileEntry => !entry.directory);
    refuseUnfit(zip, entries);
    const files: File[] = [];
    for (const entry of entries) files.push(await unpacked(zip, entry));
    return files;
  } catch (error) {
    throw error instanceof ZipFault ? error : damaged(zip);
  } finally {
    await reader.close().catch(() => undefined);
  }
}

const damaged = (zip: File): ZipFault =>
  new ZipFault(`${zip.name}: is damaged or not whole. Pack it again, or unpack it and choose the folder.`);

/** @throws ZipFault for an archive of the program's own, for too much, and for what is locked */
function refuseUnfit(zip: File, entries: readonly FileEntry[]): void {
  if (archiveLists.every((list) => entries.some(({ filename }) => filename === list)))
    throw new ZipFault(`${zip.name}: is an archive that cogwright saved. Bring it in under “Your data”.`);
  const bytes = sum(entries, ({ uncompressedSize }) => uncompressedSize);
  if (entries.length > MOST_FILES || bytes > MOST_BYTES)
    throw new ZipFault(
      `${zip.name}: holds more than is unpacked at once, which is ${counted(MOST_FILES, 'file')} or ${MOST_BYTES / 1e6} MB. Unpack it, and choose the folder in parts.`,
    );
  const locked = entries.find(({ encrypted }) => encrypted);
  if (locked)
    throw new ZipFault(`${zip.name}, ${locked.filename}: is locked with a password. Pack it again without one.`);
}

/** @throws ZipFault where it holds more than its list says; Error of the library where it is damaged */
async function unpacked(zip: File, entry: FileEntry): Promise<File> {
  const chunks: Uint8Array<ArrayBuffer>[] = [];
  let count = 0;
  const kept = new WritableStream<Uint8Array<ArrayBuffer>>({
    write(chunk) {
      count += chunk.length;
      if (count > entry.uncompressedSize) throw damaged(zip);
      chunks.push(chunk);
    },
  });
  await entry.getData(kept, { checkSignature: true });
  if (count !== entry.uncompressedSize) throw damaged(zip);
  const path = entry.filename.replaceAll('\\', '/');
  const name = path.slice(path.lastIndexOf('/') + 1);
  const folder = zip.name.replace(/\.zip$/i, '');
  return placedAt(`${folder}/${path}`, new File(chunks, name, { lastModified: entry.lastModDate.getTime() }));
}
