import type { RideSummary, TakenRide } from '../api/answers.ts';
import { make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { saidOfFile } from '../words/said-of-file.ts';

/** How far a file has come. */
export type FileStatus = 'sending' | RideSummary['status'] | TakenRide['status'];

/** What is said of each. */
export const statusWords: Readonly<Record<FileStatus, string>> = {
  sending: 'being sent',
  queued: 'waiting',
  analysing: 'being worked through',
  done: 'done',
  failed: 'could not be read',
  duplicate: 'already here',
  refused: 'not taken',
};

/** Whether a file was not taken, or could not be read. */
export const isBad = (status: FileStatus): boolean => status === 'failed' || status === 'refused';

/** A file of an upload. */
export interface WorkFile {
  name: string;
  status: FileStatus;
  rideId?: string;
  message?: string;
}

/** How one file of an upload stands. */
export function fileStatusRow(file: WorkFile): HTMLElement {
  const bad = isBad(file.status);
  const good = file.status === 'done' || file.status === 'duplicate';
  return make(
    'li',
    { class: bad ? 'is-bad' : null },
    good
      ? icon('tick')
      : bad
        ? icon('cross')
        : make('span', { class: file.status === 'queued' ? 'dot' : 'dot is-working' }),
    make(
      'span',
      { class: 'file-name' },
      good && file.rideId ? make('a', { href: `/rides/${file.rideId}` }, file.name) : file.name,
    ),
    make(
      'span',
      { class: bad ? 'fault' : 'quiet' },
      file.message ? saidOfFile(file.name, file.message) : statusWords[file.status],
    ),
  );
}
