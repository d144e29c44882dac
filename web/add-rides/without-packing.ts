import { isVisible } from './dropped-files.ts';
import { pathOf } from './file-path.ts';
import { isZip, unpackZip, ZipFault } from './unpack-zip.ts';

/** A folder in which one system packs what belongs to its files and is none of them. */
const PACKER = /(^|\/)__MACOSX\//;

/** Chosen files, with what is in zip files in place of these; and why a zip file was not unpacked. */
export async function withoutPacking(
  chosen: readonly File[],
): Promise<{ readonly files: readonly File[]; readonly faults: readonly string[] }> {
  const faults: string[] = [];
  const files: File[] = [];
  for (const file of chosen) {
    if (!(await isZip(file).catch(() => false))) {
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
