import { MessageChannel } from 'node:worker_threads';
import { Piscina } from 'piscina';
import type { SentTask } from './taken-up.ts';
import type { TaskName, Tasks } from './tasks.ts';
import { workerFile } from './worker-file.ts';

/** Limits on one piece of work; its time counts from when a thread has taken it up, however slowly threads start. */
export interface WorkLimits {
  readonly longestMs: number;
  readonly memoryMb: number;
}

/** A thread that takes this long to start on a slow and busy machine never will. */
const LONGEST_START_MS = 300_000;

/** Work that was stopped or broke off, with the reason in a stable code. */
export class WorkFailed extends Error {
  override readonly name = 'WorkFailed';
  constructor(
    readonly code: 'took-too-long' | 'out-of-memory' | 'stopped' | 'broke-off',
    override readonly cause: unknown,
  ) {
    super(code);
  }
}

/**
 * Threads that do the heavy work, so that the server keeps answering. Work that hangs is ended, work that eats memory
 * breaks off: in both cases it alone fails, and a fresh thread takes the next piece.
 */
export class WorkerPool {
  readonly #threads: Piscina;
  readonly #limits: WorkLimits;
  readonly #line: (() => void)[] = [];
  #free: number;
  #closed = false;

  /** @param nice how far the threads stand back for the server itself, as the system counts it */
  constructor(count: number, limits: WorkLimits, nice: number, file = workerFile()) {
    this.#limits = limits;
    this.#free = count;
    this.#threads = new Piscina({
      filename: file,
      minThreads: 0,
      maxThreads: count,
      idleTimeout: 30_000,
      niceIncrement: nice,
      recordTiming: false,
      resourceLimits: { maxOldGenerationSizeMb: limits.memoryMb },
    });
  }

  /** Does one piece of work. Its time counts from when a thread takes it up. Throws `WorkFailed`. */
  async run<Name extends TaskName>(name: Name, task: Tasks[Name]['ask']): Promise<Tasks[Name]['answer']> {
    if (this.#free > 0) this.#free--;
    else await new Promise<void>((turn) => this.#line.push(turn));
    try {
      return await this.#start(name, task);
    } finally {
      const next = this.#line.shift();
      if (next) next();
      else this.#free++;
    }
  }

  async #start<Name extends TaskName>(name: Name, task: Tasks[Name]['ask']): Promise<Tasks[Name]['answer']> {
    if (this.#closed) throw new WorkFailed('stopped', null);
    const ending = new AbortController();
    const { port1: heard, port2: takenUp } = new MessageChannel();
    let code: 'broke-off' | 'took-too-long' = 'broke-off';
    let clock = setTimeout(() => ending.abort(), LONGEST_START_MS);
    heard.once('message', () => {
      code = 'took-too-long';
      clearTimeout(clock);
      clock = setTimeout(() => ending.abort(), this.#limits.longestMs);
    });
    const sent: SentTask<Tasks[Name]['ask']> = { task, takenUp };
    try {
      return await this.#threads.run(sent, { name, signal: ending.signal, transferList: [takenUp] });
    } catch (error) {
      if (this.#closed) throw new WorkFailed('stopped', error);
      if (ending.signal.aborted) throw new WorkFailed(code, error);
      if ((error as { code?: string }).code === 'ERR_WORKER_OUT_OF_MEMORY')
        throw new WorkFailed('out-of-memory', error);
      throw new WorkFailed('broke-off', error);
    } finally {
      clearTimeout(clock);
      heard.close();
    }
  }

  /** Ends all threads; work under way fails as `stopped`. */
  async close(): Promise<void> {
    this.#closed = true;
    await this.#threads.destroy();
  }
}
