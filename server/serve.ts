import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { pino } from 'pino';
import { defaultDataFolder } from './data-folder/default-data-folder.ts';
import { type LogOptions, logLevel } from './log-level.ts';
import { startServer } from './start-server.ts';
import { stopOnSignal } from './stop-on-signal.ts';
import { WeakTokenError } from './strangers/listen-error.ts';
import { isLoopback } from './strangers/loopback.ts';
import { newToken, SHORTEST_TOKEN } from './strangers/token-check.ts';

/** Options of `serve`, as they come from the command line. */
export interface ServeOptions extends LogOptions {
  /** 0: any free port. */
  readonly port: number;
  /** Data folder; by default `cogwright` in the user's own data directory. */
  readonly data?: string;
  /** Address to listen on; by default this machine only. Beyond it a token is wanted from everyone. */
  readonly listen?: string;
  /** Token of at least 16 characters; beyond this machine one is made where none is given. */
  readonly token?: string;
  /** Folder of sample bikes for the first start; by default those that come with the program. */
  readonly samples?: string;
}

/** This file as built lies one folder deeper than its source. */
const root = new URL(import.meta.url.endsWith('.ts') ? '../' : '../../', import.meta.url);
const below = (path: string): string => fileURLToPath(new URL(path, root));

/**
 * Starts the server, says on standard output where it is and where its data lies, and logs to standard error: one line
 * a request and a job, or only what went wrong where a person at a terminal would have to read past them. Ctrl+C, or being asked by the system to end, stops it in order and ends the process.
 *
 * @returns where it is, and what is aborted as soon as it stops
 * @throws DataFolderError, ListenError, WeakTokenError with a message for the person at the terminal
 */
export async function serve(options: ServeOptions): Promise<{ url: string; stopping: AbortSignal }> {
  const listen = options.listen ?? '127.0.0.1';
  const data = options.data ?? defaultDataFolder();
  if (options.token !== undefined && options.token.length < SHORTEST_TOKEN) throw new WeakTokenError(SHORTEST_TOKEN);
  const token = options.token ?? (isLoopback(listen) ? null : newToken());
  const level = logLevel(options, process.stderr.isTTY === true);
  const log = pino({ level, base: null }, pino.destination({ fd: 2, sync: true }));
  const { version } = JSON.parse(readFileSync(below('package.json'), 'utf8')) as { version: string };
  const server = await startServer({
    version,
    port: options.port,
    data,
    listen,
    token,
    samples: options.samples ?? below('sample-rides'),
    page: below('dist/web'),
    log,
  });
  const stopping = stopOnSignal(server.close);
  const opened = (url: string): string => (token === null ? url : `${url}/?token=${encodeURIComponent(token)}`);
  const elsewhere = server.urlsElsewhere.map((url) => `From other machines it is at ${opened(url)}\n`).join('');
  process.stdout.write(
    `cogwright is at ${opened(server.url)}\n${elsewhere}Its data are in ${server.services.folder.path}\nStop it with Ctrl+C.\n`,
  );
  return { url: server.url, stopping };
}
