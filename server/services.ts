import type { Logger } from 'pino';
import type { DataFolder } from './data-folder/data-folder.ts';
import type { EventStreams } from './http/event-streams.ts';
import type { UploadGate } from './intake/upload-gate.ts';
import type { RawStore } from './raw/raw-store.ts';
import type { Sql } from './store/sql.ts';
import type { ChangeHub } from './work/change-hub.ts';
import type { WorkQueue } from './work/work-queue.ts';
import type { WorkerPool } from './work/worker-pool.ts';

/** Bounds on what strangers may send. */
export interface UploadLimits {
  readonly files: number;
  readonly fileBytes: number;
  readonly archiveBytes: number;
  /** Uploads, guesses and imports under way at once. */
  readonly atOnce: number;
  /** A sender who is silent for longer is hung up on. */
  readonly silentMs: number;
}

/** What the routes work with. */
export interface Services {
  /** Version of the whole program. */
  readonly version: string;
  readonly folder: DataFolder;
  readonly sql: Sql;
  readonly raw: RawStore;
  readonly hub: ChangeHub;
  readonly queue: WorkQueue;
  /** Threads for what someone waits for: reading uploads, guesses, whole reports. */
  readonly intake: WorkerPool;
  readonly streams: EventStreams;
  readonly limits: UploadLimits;
  readonly gate: UploadGate;
  readonly log: Logger;
}
