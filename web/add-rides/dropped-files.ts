import { pathOf, placedAt } from './file-path.ts';

function filesOf(entry: FileSystemEntry): Promise<File[]> {
  if (entry.isFile)
    return new Promise((resolve) =>
      (entry as FileSystemFileEntry).file(
        (file) => resolve([placedAt(entry.fullPath.replace(/^\//, ''), file)]),
        () => resolve([]),
      ),
    );
  const reader = (entry as FileSystemDirectoryEntry).createReader();
  const readOn = (): Promise<File[]> =>
    new Promise((resolve) =>
      reader.readEntries(
        async (entries) => {
          if (entries.length === 0) return resolve([]);
          const here = await Promise.all(entries.map(filesOf));
          resolve([...here.flat(), ...(await readOn())]);
        },
        () => resolve([]),
      ),
    );
  return readOn();
}

/** Whether a file is not one of those that a folder hides, nor in a hidden folder. */
export const isVisible = (file: File): boolean =>
  !pathOf(file)
    .split('/')
    .some((part) => part.startsWith('.'));

/** All files that were dropped; folders are gone through to their end. Hidden files are left out. */
export async function droppedFiles(transfer: DataTransfer): Promise<File[]> {
  const entries = [...transfer.items].flatMap((item) => item.webkitGetAsEntry?.() ?? []);
  const files = entries.length > 0 ? (await Promise.all(entries.map(filesOf))).flat() : [...transfer.files];
  return files.filter(isVisible);
}
