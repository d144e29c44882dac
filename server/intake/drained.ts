import type { IncomingMessage } from 'node:http';

/** Who sends for longer is answered in the middle of it. */
const LONGEST_MS = 5000;

/**
 * Reads what still comes of a request and throws it away: most senders look for an answer only when all is sent, and would miss one that comes
 * with a closed connection before. Ends with the request, and after `LONGEST_MS` in any case.
 */
export function drained(request: IncomingMessage): Promise<void> {
  return new Promise((resolve) => {
    const timer = setTimeout(end, LONGEST_MS);
    function end(): void {
      clearTimeout(timer);
      resolve();
    }
    request.once('end', end).once('close', end);
    if (request.complete) end();
    request.resume();
  });
}
