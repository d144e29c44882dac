import { storageRefusal } from '../http/error-answer.ts';
import { RequestError } from '../http/request-error.ts';
import type { RefusedFile } from './receive-files.ts';

/**
 * A disk that takes no more is the server's trouble, not a file's: the whole answer says so.
 *
 * @param kept what was kept all the same, in a sentence
 * @throws RequestError 507 `disk-full` or `read-only` where one of the files was refused for that
 */
export function refuseIfStorage(refused: readonly RefusedFile[], kept = ''): void {
  const storage = refused.find(({ code }) => code === 'disk-full' || code === 'read-only');
  if (!storage) return;
  const refusal = storageRefusal({ code: storage.code === 'disk-full' ? 'ENOSPC' : 'EROFS' });
  throw new RequestError(
    507,
    storage.code,
    `${refusal?.message ?? ''} ${kept}`.trim(),
    refused.map(({ name, message }) => ({ path: name, message })),
  );
}
