import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';

/** The built server in a process of its own. */
export interface ServerChild {
  readonly process: ChildProcess;
  /** Resolves with the address once it listens; rejects when the process ends before. */
  readonly url: Promise<string>;
  /** What it wrote to standard error so far. */
  readonly log: () => string;
  /** SIGKILL, and waits until it is gone. */
  kill(): Promise<void>;
  /** Peak resident memory so far, MB. */
  readonly peakMb: () => Promise<number>;
}

const built = new URL('../../dist/server/serve.js', import.meta.url).href;

/** Starts the built server on a data folder, with its own log. */
export function startChild(data: string, options: Record<string, unknown> = {}): ServerChild {
  const settings = JSON.stringify({ port: 0, data, samples: '/no/samples', ...options });
  const process_ = spawn(
    process.execPath,
    ['--input-type=module', '-e', `import { serve } from ${JSON.stringify(built)}; await serve(${settings});`],
    { stdio: ['ignore', 'pipe', 'pipe'] },
  );
  let log = '';
  process_.stderr.on('data', (chunk) => {
    log = (log + chunk).slice(-1_000_000);
  });
  const exited = once(process_, 'exit');
  const url = new Promise<string>((resolve, reject) => {
    let text = '';
    process_.stdout.on('data', (chunk) => {
      text += chunk;
      const found = /(http:\/\/\S+)/.exec(text);
      if (found) resolve(found[1]);
    });
    exited.then(() => reject(new Error(`the server ended before it listened: ${log}`)));
  });
  url.catch(() => {});
  return {
    process: process_,
    url,
    log: () => log,
    kill: async () => {
      process_.kill('SIGKILL');
      if (process_.exitCode === null && process_.signalCode === null) await exited;
    },
    peakMb: async () => {
      const { readFile } = await import('node:fs/promises');
      const status = await readFile(`/proc/${process_.pid}/status`, 'utf8');
      return Number(/VmHWM:\s+(\d+)/.exec(status)?.[1] ?? 0) / 1024;
    },
  };
}
