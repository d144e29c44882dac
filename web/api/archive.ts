import { request } from './request.ts';

/** Address of one archive with everything: bikes, rides, raw files, adjustments, judgements. */
export const archiveAddress = '/api/export';

export interface Health {
  readonly version: string;
  readonly engineVersion: string;
}

export const getHealth = (signal?: AbortSignal): Promise<Health> => request('/health', { signal });

/** Brings in an archive from another machine; what is here already stays. */
export function bringIn(archive: File): Promise<Record<string, unknown>> {
  const form = new FormData();
  form.append('archive', archive, archive.name);
  return request('/import', { method: 'POST', form });
}
