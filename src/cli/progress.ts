/** Tells how far the work on many rides has come. */
export interface Progress {
  /** `done` rides of all are through this part of the work. */
  tell(part: string, done: number): void;
  end(): void;
}

/** Where progress is shown: a terminal, or something that is none. */
export interface ProgressStream {
  readonly isTTY?: boolean;
  readonly columns?: number;
  write(text: string): unknown;
}

const silent: Progress = { tell: () => {}, end: () => {} };
const eraseLine = '\r\u001B[K';

/** A line on standard error that is written over, where that is a terminal and there is more than one ride; else nothing. */
export function progressOver(rides: number, stream: ProgressStream = process.stderr): Progress {
  if (rides < 2 || !stream.isTTY) return silent;
  const width = Math.max(20, (stream.columns ?? 80) - 1);
  return {
    tell: (part, done) => stream.write(`${eraseLine}${`${part}: ${done} of ${rides} rides`.slice(0, width)}`),
    end: () => stream.write(eraseLine),
  };
}
