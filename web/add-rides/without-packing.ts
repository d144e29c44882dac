import { otherKind } from '../../src/ride-log/other-kind.ts';
import { isVisible } from './dropped-files.ts';
import { pathOf } from './file-path.ts';
import { isZip, unpackZip, ZipFault } from './unpack-zip.ts';

/** As much of a file as tells its kind. */
const BEGINNING = 4096;
/** A folder in which one system packs what belongs to its files and is none of them. */
const PACKER = /(^|\/)__MACOSX\//;

/** An office document is a zip file, too, and nobody means what is in it. */
const isDocument = async (file: File): Promise<boolean> =>
  otherKind(new Uint8Array(await file.slice(0, BEGINNING).arrayBuffer())) !== null;

/** Chosen files, with what is in zip files in place of these; and why a zip file was not unpacked. */
export async function withoutPacking(
  chosen: readonly File[],
): Promise<{ readonly files: readonly File[]; readonly faults: readonly string[] }> {
  const faults: string[] = [];
  const files: File[] = [];
  for (const file of chosen) {
    if (!(await isZip(file).catch(() => false)) || (await isDocument(file))) {
      files.push(file);
      continue;
    }
    try {
      files.push(...(await unpackZip(file)).filter((one) => isVisible(one) && !PACKER.test(pathOf(one))));
    } catch (error) {
      if (!(error instanceof ZipFault)) throw error;
      faults.push(error.message);
    }
  }
  return { files, faults };
}
