/** One keystroke reaches the program twice where npm runs it: from the terminal, and handed on by npm. */
const SAME_KEYSTROKE_MS = 1000;

/** How often a program that npm runs looks whether npm is still there. */
const LOOK_MS = 500;

const signals = { SIGINT: 130, SIGTERM: 143 } as const;

/**
 * Closes in order when the person at the terminal or the system asks the program to stop, or when npm that ran it was
 * ended, and then ends it with 0. Asked once more, it ends at once, with the code that is usual for that signal.
 *
 * @returns aborted as soon as the program was asked to stop
 */
export function stopOnSignal(close: () => Promise<void>): AbortSignal {
  const stopping = new AbortController();
  let firstAsked = 0;
  const stop = (signal: keyof typeof signals): void => {
    if (stopping.signal.aborted) {
      if (performance.now() - firstAsked >= SAME_KEYSTROKE_MS) process.exit(signals[signal]);
      return;
    }
    firstAsked = performance.now();
    stopping.abort();
    close().then(
      () => process.exit(0),
      (error) => {
        process.stderr.write(`cogwright: could not stop in order: ${error instanceof Error ? error.stack : error}\n`);
        process.exit(70);
      },
    );
  };
  if (process.env.npm_lifecycle_event !== undefined) onceAlone(() => stop('SIGTERM'));
  for (const signal of Object.keys(signals) as (keyof typeof signals)[]) process.on(signal, stop);
  return stopping.signal;
}

/** npm runs a program in a shell that hands on no signal: asked to end, the two are gone and the program is left behind. */
function onceAlone(stop: () => void): void {
  const parent = process.ppid;
  const looking = setInterval(() => {
    if (process.ppid === parent) return;
    clearInterval(looking);
    stop();
  }, LOOK_MS);
  looking.unref();
}
