const words: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EACCES: 'may not be read by you',
  EPERM: 'may not be read by you',
  EISDIR: 'is a folder, not a file',
  ENOTDIR: 'a part of its path is a file, not a folder',
  EMFILE: 'cannot be opened: too many files are open',
};

/** Why a file could not be read, in words for the message of a FileError. */
export function causeOfReadError(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  return words[code] ?? `cannot be read (${code || String(error)})`;
}
