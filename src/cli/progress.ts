/** Tells how far the reading of rides has come. */
export interface Progress {
  step(done: number, file: string): void;
  end(): void;
}

const silent: Progress = { step: () => {}, end: () => {} };
const eraseLine = '\r\u001B[K';

/** A line on standard error that is written over, where that is a terminal and there is more than one ride; else nothing. */
export function progressOver(total: number, stream: NodeJS.WriteStream = process.stderr): Progress {
  if (total < 2 || !stream.isTTY) return silent;
  const width = Math.max(20, (stream.columns ?? 80) - 1);
  return {
    step: (done, file) =>
      stream.write(`${eraseLine}${`Reading ride ${done + 1} of ${total}: ${file}`.slice(0, width)}`),
    end: () => stream.write(eraseLine),
  };
}
