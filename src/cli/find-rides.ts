import { type Dirent, readdirSync, realpathSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { FailedRide } from '../report/report-schema.ts';
import { isNamedLikeRide } from '../ride-log/worth-trying.ts';
import { looksLikeRide } from './looks-like-ride.ts';
import { unreadable } from './read-error.ts';

/** Ride files to read, in order, and the arguments that lead to none. */
interface FoundRides {
  readonly files: readonly string[];
  readonly failed: readonly FailedRide[];
}

/**
 * Finds the ride files that arguments name. A file named itself is always taken. A folder is walked with its
 * subfolders in the order of names, hidden entries left out, and gives the files that look like ride logs or are named so. The same
 * file reached twice counts once. What may not be looked into stands under `failed`, as `unreadable`.
 *
 * @param companions files that are read as something else, the bike's for example: left alone in a folder
 */
export function findRides(paths: readonly string[], companions: readonly string[] = []): FoundRides {
  const files = new Map<string, string>();
  const failed: FailedRide[] = [];
  /** What `look` gives; `fallback` where the system does not let it be looked at. */
  const looking = <T>(path: string, look: () => T, fallback: T): T => {
    try {
      return look();
    } catch (error) {
      const { code, message } = unreadable(path, error);
      failed.push({ file: path, code, message });
      return fallback;
    }
  };
  const elsewhere = new Set(companions.map((file) => looking(file, () => realpathSync(file), null)));
  const take = (file: string): void => {
    const place = looking(file, () => realpathSync(file), null);
    if (place !== null && !files.has(place)) files.set(place, file);
  };
  for (const path of paths) {
    const stat = looking(path, () => statSync(path, { throwIfNoEntry: false }) ?? 'missing', null);
    if (stat === null) continue;
    if (stat === 'missing') {
      failed.push({ file: path, code: 'not-found', message: `${path}: there is no such file. Check its name.` });
      continue;
    }
    if (!stat.isDirectory()) {
      take(path);
      continue;
    }
    const shut = failed.length;
    const found = ridesInFolder(path, {
      entries: (folder) => looking(folder, () => entriesOf(folder), []),
      deadLink: (link) => failed.push(leadsNowhere(link)),
    }).filter((file) => !elsewhere.has(looking(file, () => realpathSync(file), null)));
    if (found.length === 0 && failed.length === shut)
      failed.push({
        file: path,
        code: 'no-rides',
        message: `${path}: the folder holds no ride logs. Give FIT, TCX, GPX or CSV files.`,
      });
    for (const file of found) take(file);
  }
  return { files: [...files.values()], failed };
}

const entriesOf = (folder: string): Dirent[] =>
  readdirSync(folder, { withFileTypes: true })
    .filter((entry) => !entry.name.startsWith('.'))
    .sort((a, b) => (a.name < b.name ? -1 : 1));

/** What to do on the walk through a folder. */
interface FolderWalk {
  readonly entries: (folder: string) => readonly Dirent[];
  /** Called with a link that is named like a ride and leads nowhere, or round in a circle. */
  readonly deadLink: (link: string) => void;
}

function ridesInFolder(folder: string, walk: FolderWalk): string[] {
  return walk.entries(folder).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return ridesInFolder(path, walk);
    const file = entry.isSymbolicLink() ? leadsToFile(path) : entry.isFile();
    if (file === null && isNamedLikeRide(path)) walk.deadLink(path);
    return file && looksLikeRide(path) ? [path] : [];
  });
}

/** False for a link to a folder; null for one that leads nowhere or round in a circle. */
function leadsToFile(link: string): boolean | null {
  try {
    return statSync(link).isFile();
  } catch {
    return null;
  }
}

const leadsNowhere = (link: string): FailedRide => ({
  file: link,
  code: 'not-found',
  message: `${link}: is a link that leads to no file. Check where it leads.`,
});
