import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterAll } from 'vitest';
import { type RunningServer, type StartOptions, startServer } from '../../server/start-server.ts';
import { WorkerPool } from '../../server/work/worker-pool.ts';

/** One thread for all servers of a test file: starting one takes longer than what most tests ask of it. */
export const pool = new WorkerPool(1, { longestMs: 120_000, memoryMb: 512 }, 0);
const threads = { intake: pool, analysis: pool };
afterAll(() => pool.close());

/** A folder of its own for a test, and the function that removes it. */
export function temporaryFolder(): { path: string; remove(): void } {
  const path = mkdtempSync(join(tmpdir(), 'cogwright-test-'));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}

export interface TestServer extends RunningServer {
  readonly data: string;
  /** Log lines so far, parsed. */
  readonly logged: Record<string, unknown>[];
}

/** A real server on a free port. Its data go when it closes, unless a `data` folder was named. */
export async function testServer(options: Partial<StartOptions> & { level?: string } = {}): Promise<TestServer> {
  const own = temporaryFolder();
  const data = options.data ?? join(own.path, 'data');
  const page = join(own.path, 'page');
  mkdirSync(join(page, 'assets'), { recursive: true });
  writeFileSync(join(page, 'index.html'), '<!doctype html><title>page</title>');
  writeFileSync(join(page, 'assets', 'main-1a2b.js'), 'export {};');
  const logged: Record<string, unknown>[] = [];
  const { level = 'info', ...rest } = options;
  const log = pino({ level, base: null }, { write: (line: string) => void logged.push(JSON.parse(line)) });
  const server = await startServer({
    version: '0.0.1',
    port: 0,
    listen: '127.0.0.1',
    token: null,
    samples: null,
    threads,
    page,
    log,
    ...rest,
    data,
  }).catch((error) => {
    own.remove();
    throw error;
  });
  return {
    ...server,
    close: async () => {
      await server.close();
      own.remove();
    },
    data,
    logged,
  };
}
