/** What keeps the disk from taking a write. */
export type StorageFault = 'disk-full' | 'read-only';

const full = new Set(['ENOSPC', 'EDQUOT', 'EFBIG', 'SQLITE_FULL']);
const readOnly = new Set(['EROFS', 'EACCES', 'EPERM', 'SQLITE_READONLY', 'SQLITE_CANTOPEN', 'SQLITE_PERM']);

/**
 * Tells a full disk and a read-only one from other errors, whether the file system or SQLite reports them; null for
 * anything else. SQLite's extended codes (`SQLITE_READONLY_DBMOVED`) count as their base.
 */
export function storageFault(error: unknown): StorageFault | null {
  const code = (error as { code?: unknown } | null)?.code;
  if (typeof code !== 'string') return null;
  const base = /^SQLITE_[A-Z]+/.exec(code)?.[0] ?? code;
  if (full.has(base)) return 'disk-full';
  return readOnly.has(base) ? 'read-only' : null;
}
