import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';

const address = /^[0-9a-f]{64}$/;

/**
 * The ride files, each at the address of its own content: `ab/ab12…` under the folder, named by SHA-256 and by nothing
 * a user wrote. A file appears whole or not at all, since it is moved in from the same disk when it is whole.
 */
export class RawStore {
  constructor(readonly folder: string) {}

  path(sha256: string): string {
    if (!address.test(sha256)) throw new RangeError('not an address in the raw store');
    return join(this.folder, sha256.slice(0, 2), sha256);
  }

  /**
   * Moves a file in whose bytes are already flushed, and flushes its folder. Synchronous, so that the caller can
   * register it in the same turn and no removal comes between.
   */
  take(file: string, sha256: string): void {
    const to = this.path(sha256);
    if (!existsSync(dirname(to))) {
      mkdirSync(dirname(to), { mode: 0o700 });
      flushFolder(this.folder);
    }
    renameSync(file, to);
    flushFolder(dirname(to));
  }

  has(sha256: string): boolean {
    return existsSync(this.path(sha256));
  }

  remove(sha256: string): void {
    rmSync(this.path(sha256), { force: true });
  }

  /** Addresses of files that no ride lays claim to. */
  orphans(claimed: ReadonlySet<string>): string[] {
    return readdirSync(this.folder, { withFileTypes: true })
      .filter((shelf) => shelf.isDirectory())
      .flatMap((shelf) => readdirSync(join(this.folder, shelf.name)))
      .filter((name) => address.test(name) && !claimed.has(name));
  }
}

/** Makes the names in a folder last. Windows has no such thing for folders and needs none. */
function flushFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
