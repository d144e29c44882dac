import type { Health, Merged } from './answers.ts';
import { request } from './request.ts';

/** Address of one archive with everything: bikes, rides, raw files, adjustments, judgements. */
export const archiveAddress = '/api/export';

/** Which versions the server runs. */
export const getHealth = (signal?: AbortSignal): Promise<Health> => request('/health', { signal });

/** Brings in an archive from another machine; what is here already stays. */
export function bringIn(archive: File): Promise<Merged> {
  const form = new FormData();
  form.append('archive', archive, archive.name);
  return request('/import', { method: 'POST', form });
}
