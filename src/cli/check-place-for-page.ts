import { type Stats, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { UsageError } from '../errors/usage-error.ts';
import { isHtmlReport } from '../report/html/generator.ts';
import { fileBeginning } from './file-beginning.ts';
import { unwritable } from './write-error.ts';

/**
 * Makes sure that writing the page to `file` loses nothing: what stands there may only be an earlier page, or empty.
 *
 * @param read files that are read on this run
 * @throws UsageError where it would, or where there is no such folder
 */
export function checkPlaceForPage(file: string, read: readonly string[]): void {
  const look = (path: string): Stats | undefined => {
    try {
      return statSync(path, { throwIfNoEntry: false });
    } catch (error) {
      throw unwritable(`--html ${file}`, null, error);
    }
  };
  if (!look(dirname(file))?.isDirectory())
    throw new UsageError(`--html ${file}: there is no folder ${dirname(file)}. Make it or name another.`);
  const there = look(file);
  if (there?.isDirectory()) throw new UsageError(`--html ${file}: is a folder. Name the file to write.`);
  if (!there?.isFile()) return;
  const isThere = (path: string): boolean => {
    const stat = statSync(path, { throwIfNoEntry: false });
    return stat?.ino === there.ino && stat.dev === there.dev;
  };
  if (read.some(isThere)) throw new UsageError(`--html ${file}: is one of the files to be read. Name another.`);
  if (there.size > 0 && !isHtmlReport(fileBeginning(file).toString('utf8')))
    throw new UsageError(
      `--html ${file}: is there already and is no report of cogwright. Name another, or move it away.`,
    );
}
