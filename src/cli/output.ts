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
      throw error;
    });
}

/** Writes a result to standard output and waits until the reader has taken it. */
export function writeResult(text: string): Promise<void> {
  return new Promise((resolve, reject) => {
    process.stdout.write(text, (error) => (error ? reject(error) : resolve()));
  });
}

/** Writes a line for the rider to standard error. */
export function writeNote(text: string): void {
  process.stderr.write(`${text}\n`);
}
