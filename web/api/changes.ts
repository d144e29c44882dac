/** Something on the server is not what it was. Ids that do not matter to the change are absent. */
export interface Change {
  readonly bikeId?: string | null;
  readonly rideId?: string | null;
}

const kinds = ['bike', 'ride', 'gone'] as const;
const listeners = new Set<(change: Change) => void>();
let source: EventSource | null = null;

function tell(change: Change): void {
  for (const listener of [...listeners]) listener(change);
}

function open(): void {
  if (source || listeners.size === 0 || document.hidden) return;
  source = new EventSource('/api/events');
  for (const kind of kinds)
    source.addEventListener(kind, (event) => tell(JSON.parse((event as MessageEvent<string>).data) as Change));
}

function close(): void {
  source?.close();
  source = null;
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
