import { counted } from '../../src/numeric/counted.ts';
import { listedUpTo } from '../../src/numeric/listed.ts';
import { worthTrying } from '../../src/ride-log/worth-trying.ts';
import { isCompanion } from './companion-files.ts';
import { pathOf } from './file-path.ts';

/** As much of a file as tells whether it is a ride. */
const BEGINNING = 4096;

/** More names than this are not listed. */
const NAMED = 3;

/** Whether a file came with a folder, or packed with others, and was not chosen by itself. */
const cameAlong = (file: File): boolean => pathOf(file).includes('/');

async function isOfUse(file: File): Promise<boolean> {
  if (!cameAlong(file)) return true;
  const start = new Uint8Array(
    await file
      .slice(0, BEGINNING)
      .arrayBuffer()
      .catch(() => new ArrayBuffer(0)),
  );
  return worthTrying(file.name, start) || isCompanion(file);
}

/** Chosen files without what only lay in the same folder (notes, pictures), and the names of those. What was chosen by itself stays, whatever it is. */
export async function withoutCompany(
  files: readonly File[],
): Promise<{ readonly files: readonly File[]; readonly leftAlone: readonly string[] }> {
  const ofUse = await Promise.all(files.map(isOfUse));
  return { files: files.filter((_, i) => ofUse[i]), leftAlone: files.filter((_, i) => !ofUse[i]).map(pathOf) };
}

/** What to say of files that were left alone; null where there is none. */
export function leftAloneSentence(names: readonly string[]): string | null {
  if (names.length === 0) return null;
  return names.length === 1
    ? `${names[0]} is no ride log, bike file or log of adjustments, and was left alone.`
    : `${counted(names.length, 'file')} are no ride logs, bike files or logs of adjustments, and were left alone: ${listedUpTo(NAMED, names)}.`;
}
