import { exitCode } from './exit-code.ts';
import { unwritable } from './write-error.ts';

let watched = false;

/**
 * Ends the program without a message when the reader of a pipe has gone (`cogwright analyse ... | head`), as other
 * command-line programs do.
 */
export function endQuietlyOnBrokenPipe(): void {
  if (watched) return;
  watched = true;
  for (const stream of [process.stdout, process.stderr])
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EPIPE') process.exit(process.exitCode ?? 0);
      // Thrown from here it would end the program with 1, as if no ride could be analysed.
      process.exitCode = exitCode.usage;
    });
}

/**
 * Writes a result to standard output and waits until the reader has taken it.
 *
 * @throws UsageError where it cannot be written
 */
export function writeResult(text: string): Promise<void> {
  return new Promise((resolve, reject) => {
    process.stdout.write(text, (error) => (error ? reject(unwritable('standard output', null, error)) : resolve()));
  });
}

/** Writes a line for the rider to standard error. */
export function writeNote(text: string): void {
  process.stderr.write(`${text}\n`);
}
