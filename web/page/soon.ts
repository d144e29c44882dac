/**
 * Runs `work` a moment after it is called, once for many calls that come together, and never two at a time.
 * A failure is left to the next call: what is on the page stays.
 */
export function soon(work: () => Promise<unknown>, signal: AbortSignal, waitMs = 250): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let running = false;
  let again = false;
  const run = (): void => {
    timer = undefined;
    if (signal.aborted) return;
    if (running) {
      again = true;
      return;
    }
    running = true;
    work()
      .catch(() => undefined)
      .finally(() => {
        running = false;
        if (again) call();
        again = false;
      });
  };
  const call = (): void => {
    timer ??= setTimeout(run, waitMs);
  };
  signal.addEventListener('abort', () => clearTimeout(timer), { once: true });
  return call;
}
