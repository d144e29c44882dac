import { FileError } from '../errors/file-error.ts';

const words: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EACCES: 'may not be read by you',
  EPERM: 'may not be read by you',
  EISDIR: 'is a folder, not a file',
  ENOTDIR: 'a part of its path is a file, not a folder',
  ELOOP: 'is a link that leads back to itself',
  ENAMETOOLONG: 'has too long a name',
  EMFILE: 'cannot be opened: too many files are open',
  EIO: 'cannot be read: the disk or its connection fails',
};

/** The error `unreadable` for a file or folder that the system does not let be read, in words. */
export function unreadable(path: string, error: unknown): FileError {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  const found = words[code] ?? `cannot be read (${code || String(error)})`;
  return new FileError(path, 'unreadable', found, 'Check its name and who may read it.');
}
