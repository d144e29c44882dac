import { readdirSync, realpathSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { FailedRide } from '../report/report-schema.ts';
import { looksLikeRide } from './looks-like-ride.ts';

/** Ride files to read, in order, and the arguments that lead to none. */
export interface FoundRides {
  readonly files: readonly string[];
  readonly failed: readonly FailedRide[];
}

/**
 * Finds the ride files that arguments name. A file named itself is always taken. A folder is walked with its
 * subfolders in the order of names, hidden entries left out, and gives the files that look like ride logs. The same
 * file reached twice counts once.
 */
export function findRides(paths: readonly string[]): FoundRides {
  const files = new Map<string, string>();
  const failed: FailedRide[] = [];
  for (const path of paths) {
    const stat = statSync(path, { throwIfNoEntry: false });
    if (!stat) {
      failed.push({ file: path, code: 'not-found', message: `${path}: there is no such file. Check its name.` });
      continue;
    }
    const found = stat.isDirectory() ? ridesInFolder(path) : [path];
    if (found.length === 0)
      failed.push({
        file: path,
        code: 'no-rides',
        message: `${path}: the folder holds no ride logs. Give FIT, TCX, GPX or CSV files.`,
      });
    for (const file of found) {
      const place = realpathSync(file);
      if (!files.has(place)) files.set(place, file);
    }
  }
  return { files: [...files.values()], failed };
}

function ridesInFolder(folder: string): string[] {
  const entries = readdirSync(folder, { withFileTypes: true })
    .filter((entry) => !entry.name.startsWith('.'))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
  return entries.flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return ridesInFolder(path);
    const isFile = entry.isFile() || (entry.isSymbolicLink() && statSync(path, { throwIfNoEntry: false })?.isFile());
    return isFile && looksLikeRide(path) ? [path] : [];
  });
}
