import { createHash } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { open } from 'node:fs/promises';
import { Transform, Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { type Entry, openPromise, type ZipFile } from 'yauzl';
import type { z } from 'zod';
import { storageFault } from '../data-folder/storage-fault.ts';
import { RequestError } from '../http/request-error.ts';
import {
  ARCHIVE_VERSION,
  type ArchivedBike,
  type ArchivedRide,
  archivedBikesShape,
  archivedRidesShape,
  manifestShape,
} from './archive-shapes.ts';

const LARGEST_LIST = 64 * 1024 * 1024;
/** Entries of a table of contents are held in memory; no rider has so many rides. */
const MOST_ENTRIES = 200_000;
const entryName = /^(manifest\.json|bikes\.json|rides\.json|raw\/[0-9a-f]{64})$/;

const bad = (found: string): RequestError =>
  new RequestError(422, 'bad-archive', `The archive ${found}. Choose a file that cogwright exported.`);

/** An archive begins as one and lacks its table of contents, which stands at its end. */
const cutOff = (): RequestError =>
  new RequestError(
    422,
    'bad-archive',
    'The archive is not whole: its end is missing. Save it again, or copy it again from where it was saved.',
  );

/** What every zip file with something in it begins with (its local file header). */
const zipMark = Buffer.from('PK\x03\x04', 'latin1');

async function beginsAsZip(path: string): Promise<boolean> {
  const file = await open(path);
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(zipMark.length), 0, zipMark.length, 0);
    return bytesRead === zipMark.length && buffer.equals(zipMark);
  } finally {
    await file.close();
  }
}

/** An archive that was opened and whose lists were checked. */
export interface OpenArchive {
  readonly bikes: readonly ArchivedBike[];
  readonly rides: readonly ArchivedRide[];
  /** Unpacks a ride's file to `path`. Throws `bad-archive` where it is missing, damaged, too large, or not what the list says. */
  unpack(ride: ArchivedRide, path: string, mostBytes: number): Promise<void>;
  close(): void;
}

/** A fault of this machine (no more files may be open, a disk that fails) or of the program: no archive is to blame for it. */
const isOurs = (error: unknown): boolean =>
  error instanceof TypeError || error instanceof ReferenceError || (error instanceof Error && 'syscall' in error);

/**
 * Opens an archive by its table of contents. Nothing in it names a place on this machine: entries are looked up by the
 * names an archive may have, others are refused, and sizes are bounded while unpacking, whatever the table says.
 */
export async function readArchive(path: string, most = MOST_ENTRIES): Promise<OpenArchive> {
  const zip = await openPromise(path, { autoClose: false, strictFileNames: true }).catch(async (error: unknown) => {
    if (isOurs(error)) throw error;
    throw (await beginsAsZip(path)) ? cutOff() : bad('is no zip file');
  });
  try {
    const entries = await entriesOf(zip, most);
    const manifest = await list(zip, entries, 'manifest.json', manifestShape);
    if (manifest.version > ARCHIVE_VERSION)
      throw new RequestError(
        422,
        'archive-newer',
        `The archive has version ${manifest.version}; this cogwright reads versions up to ${ARCHIVE_VERSION}. Update it first.`,
      );
    return {
      bikes: await list(zip, entries, 'bikes.json', archivedBikesShape),
      rides: await list(zip, entries, 'rides.json', archivedRidesShape),
      unpack: (ride, to, mostBytes) => unpack(zip, entries, ride, to, mostBytes),
      close: () => zip.close(),
    };
  } catch (error) {
    zip.close();
    throw error instanceof RequestError || isOurs(error) ? error : bad('is damaged');
  }
}

async function entriesOf(zip: ZipFile, most: number): Promise<Map<string, Entry>> {
  const entries = new Map<string, Entry>();
  for await (const entry of zip.eachEntry()) {
    if (!entryName.test(entry.fileName)) throw bad('holds a file that does not belong there');
    if (entries.size === most) throw bad('holds more files than an archive can');
    entries.set(entry.fileName, entry);
  }
  return entries;
}

/** Hands bytes on and counts them; breaks off beyond `most`. */
function bounded(most: number, onChunk: (chunk: Buffer) => void): Transform {
  let count = 0;
  return new Transform({
    transform(chunk: Buffer, _encoding, done) {
      count += chunk.length;
      if (count > most) return done(bad('holds a file that is too large'));
      onChunk(chunk);
      done(null, chunk);
    },
  });
}

async function list<Shape extends z.ZodType>(
  zip: ZipFile,
  entries: ReadonlyMap<string, Entry>,
  name: string,
  shape: Shape,
): Promise<z.output<Shape>> {
  const entry = entries.get(name);
  if (!entry) throw bad(`holds no ${name}`);
  const chunks: Buffer[] = [];
  await pipeline(
    await zip.openReadStreamPromise(entry),
    bounded(LARGEST_LIST, (chunk) => chunks.push(chunk)),
    new Writable({ write: (_chunk, _encoding, done) => done() }),
  );
  const parsed = shape.safeParse(JSON.parse(Buffer.concat(chunks).toString('utf8')));
  if (!parsed.success) throw bad(`holds a ${name} that does not read as one`);
  return parsed.data;
}

async function unpack(
  zip: ZipFile,
  entries: ReadonlyMap<string, Entry>,
  ride: ArchivedRide,
  path: string,
  mostBytes: number,
): Promise<void> {
  const entry = entries.get(`raw/${ride.sha256}`);
  if (!entry?.uncompressedSize) throw bad('lacks the file of a ride that it lists');
  const hash = createHash('sha256');
  try {
    await pipeline(
      await zip.openReadStreamPromise(entry),
      bounded(mostBytes, (chunk) => hash.update(chunk)),
      createWriteStream(path, { flags: 'wx', mode: 0o600 }),
    );
  } catch (error) {
    if (error instanceof RequestError || storageFault(error)) throw error;
    throw bad('holds a ride file that cannot be unpacked');
  }
  if (hash.digest('hex') !== ride.archivedSha256) throw bad('holds a ride file that was changed');
}
