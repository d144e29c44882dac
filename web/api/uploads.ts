import type { DrivetrainGuess, UploadAnswer, UploadProgress } from './answers.ts';
import { request } from './request.ts';

function formOf(files: readonly File[]): FormData {
  const form = new FormData();
  for (const file of files) form.append('files', file, file.name);
  return form;
}

/** Reads the files and guesses the drivetrain; nothing is stored. */
export const requestGuess = (files: readonly File[], signal?: AbortSignal): Promise<DrivetrainGuess> =>
  request('/drivetrain-guess', { method: 'POST', form: formOf(files), signal });

/** Adds ride files to a bike; `bikeId` may also be `auto` (each ride finds its own) or `new`. */
export const uploadRides = (bikeId: string, files: readonly File[]): Promise<UploadAnswer> =>
  request(`/uploads?bike=${encodeURIComponent(bikeId)}`, { method: 'POST', form: formOf(files) });

/** What is told of an upload while it is followed. */
export interface UploadListener {
  take(progress: UploadProgress): void;
  /** The server does not answer, or answers again: a browser goes on asking by itself. */
  reached(isReached: boolean): void;
}

/** Follows an upload until the server says it is finished, the connection is refused for good, or `signal` aborts. */
export function followUpload(uploadId: string, listener: UploadListener, signal: AbortSignal): Promise<void> {
  if (signal.aborted) return Promise.resolve();
  return new Promise((resolve, reject) => {
    const source = new EventSource(`/api/uploads/${encodeURIComponent(uploadId)}/events`);
    const end = (settle: () => void): void => {
      source.close();
      settle();
    };
    source.addEventListener('progress', (event) => listener.take(JSON.parse(event.data) as UploadProgress));
    source.addEventListener('finished', () => end(resolve));
    source.addEventListener('open', () => listener.reached(true));
    source.addEventListener('error', () => {
      if (source.readyState === EventSource.CLOSED) end(() => reject(new Error('The server stopped reporting.')));
      else listener.reached(false);
    });
    signal.addEventListener('abort', () => end(resolve), { once: true });
  });
}
