import type { ReadFile } from '../api/answers.ts';

/**
 * The files without those that were just read and in which nothing was understood: to send them would only have them
 * refused again. Of files with one name all are kept where any could be read, since nobody can tell which.
 */
export function readableFiles(files: readonly File[], told: readonly ReadFile[]): File[] {
  const of = <T extends { name: string }>(all: readonly T[], name: string): T[] =>
    all.filter((one) => one.name === name);
  return files.filter(({ name }) => {
    const read = of(told, name);
    return read.length < of(files, name).length || read.some(({ understood }) => understood.length > 0);
  });
}
