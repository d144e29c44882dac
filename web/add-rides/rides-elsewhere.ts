import type { TakenRide } from '../api/answers.ts';

/** Whether what was sent to a bike that was made for it is on another bike already: some of it, and nothing of it is new. */
export const ridesElsewhere = (files: readonly Pick<TakenRide, 'status'>[]): boolean =>
  files.some(({ status }) => status === 'duplicate') && files.every(({ status }) => status !== 'queued');
