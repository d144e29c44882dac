import { Piscina } from 'piscina';
import type { TaskName, Tasks } from './tasks.ts';
import { workerFile } from './worker-file.ts';

/** Limits on one piece of work. */
export interface WorkLimits {
  readonly longestMs: number;
  readonly memoryMb: number;
}

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
    const tooLong = AbortSignal.timeout(this.#limits.longestMs);
    try {
      return await this.#threads.run(task, { name, signal: tooLong });
    } catch (error) {
      if (this.#closed) throw new WorkFailed('stopped', error);
      if (tooLong.aborted) throw new WorkFailed('took-too-long', error);
      if ((error as { code?: string }).code === 'ERR_WORKER_OUT_OF_MEMORY')
        throw new WorkFailed('out-of-memory', error);
      throw new WorkFailed('broke-off', error);
    }
  }

  /** Ends all threads; work under way fails as `stopped`. */
  async close(): Promise<void> {
    this.#closed = true;
    await this.#threads.destroy();
  }
}
