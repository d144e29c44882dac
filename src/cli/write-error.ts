import { UsageError } from '../errors/usage-error.ts';

const noRight = ['you may not write there', 'Name a place of your own.'] as const;
const full = ['the disk is full', 'Free some space, or name a place on another disk.'] as const;
const notAFolder = ['a part of its path is a file, not a folder', 'Name another place.'] as const;

/** What keeps a file from being written, and how to mend it. */
const words: Readonly<Record<string, readonly [found: string, mend: string]>> = {
  EACCES: noRight,
  EPERM: noRight,
  EROFS: ['that disk can only be read', 'Name a place on another disk.'],
  ENOSPC: full,
  EDQUOT: full,
  ENOENT: ['there is no such folder', 'Make it or name another.'],
  ENOTDIR: notAFolder,
  EEXIST: notAFolder,
  EISDIR: ['it is a folder', 'Name the file to write.'],
  ENAMETOOLONG: ['its name is too long', 'Name it shorter.'],
};

/**
 * The error for a file that could not be written, in words.
 *
 * @param option as it was given, for example `--html page.html`
 * @param path the file itself, where it is not the one named by the option
 */
export function unwritable(option: string, path: string | null, error: unknown): UsageError {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  const [found, mend] = words[code] ?? [`the system refused it (${code || String(error)})`, 'Name another place.'];
  return new UsageError(`${option}: ${path === null ? '' : `${path} `}could not be written: ${found}. ${mend}`);
}
