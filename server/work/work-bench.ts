import type { Logger } from 'pino';
import type { RawStore } from '../raw/raw-store.ts';
import type { Sql } from '../store/sql.ts';
import type { ChangeHub } from './change-hub.ts';
import type { WorkerPool } from './worker-pool.ts';

/** What the pieces of work need. */
export interface WorkBench {
  readonly sql: Sql;
  readonly raw: RawStore;
  readonly database: string;
  readonly pool: WorkerPool;
  readonly hub: ChangeHub;
  readonly log: Logger;
}
