const paths = new WeakMap<File, string>();

/** Notes where a file lay below what was dropped or unpacked: its folders and its name, with `/` between. Returns the file. */
export function placedAt(path: string, file: File): File {
  paths.set(file, path);
  return file;
}

/** Where a file lay below what was chosen, dropped or unpacked; its name alone where it was chosen by itself. */
export const pathOf = (file: File): string => paths.get(file) ?? (file.webkitRelativePath || file.name);

/** The folder of a path; empty where it has none. */
export const folderOf = (path: string): string => path.slice(0, Math.max(0, path.lastIndexOf('/')));
