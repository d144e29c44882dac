/** Something on the server is not what it was. Ids that do not matter to the change are absent. */
export interface Change {
  readonly bikeId?: string | null;
  readonly rideId?: string | null;
}

const kinds = ['bike', 'ride', 'gone'] as const;
const listeners = new Set<(change: Change) => void>();
/** How long the page waits before it asks again for news that the server refused. */
const RETRY_MS = 5_000;
let source: EventSource | null = null;
/** The stream broke off: what has changed since went untold. */
let behind = false;

function tell(change: Change): void {
  for (const listener of [...listeners]) listener(change);
}

function open(): void {
  if (source || listeners.size === 0 || document.hidden) return;
  const opened = new EventSource('/api/events');
  source = opened;
  for (const kind of kinds)
    opened.addEventListener(kind, (event) => tell(JSON.parse((event as MessageEvent<string>).data) as Change));
  opened.addEventListener('open', catchUp);
  opened.addEventListener('error', () => brokeOff(opened));
}

function catchUp(): void {
  if (behind) tell({});
  behind = false;
}

/** A browser takes a stream up again by itself when it breaks off, but not after an answer that refuses it. */
function brokeOff(broken: EventSource): void {
  if (broken !== source) return;
  if (broken.readyState === EventSource.CLOSED) {
    close();
    setTimeout(open, RETRY_MS);
  }
  behind = true;
}

function close(): void {
  source?.close();
  source = null;
  behind = false;
}

// Browsers allow few connections to one server: a page that nobody looks at gives its own back, and catches up later.
document.addEventListener('visibilitychange', () => {
  if (document.hidden) close();
  else if (!source) {
    open();
    tell({});
  }
});

/**
 * Calls `listener` for everything that changes on the server until `signal` aborts. A change without ids means that
 * anything may have changed. One connection serves the page.
 */
export function onChange(listener: (change: Change) => void, signal: AbortSignal): void {
  if (signal.aborted) return;
  listeners.add(listener);
  open();
  signal.addEventListener(
    'abort',
    () => {
      listeners.delete(listener);
      if (listeners.size === 0) close();
    },
    { once: true },
  );
}
