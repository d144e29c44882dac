import type { Level } from 'pino';

/** How much is logged. */
export interface LogOptions {
  /** Logs each stage of every analysis. */
  readonly verbose?: boolean;
  /** Logs only what went wrong; by default so where the log would be read on a terminal. */
  readonly quiet?: boolean;
}

/** From what level on the server logs: on a terminal a line a request would bury what is said to the person there. */
export function logLevel({ verbose = false, quiet }: LogOptions, onTerminal: boolean): Level {
  if (verbose) return 'debug';
  return (quiet ?? onTerminal) ? 'warn' : 'info';
}
