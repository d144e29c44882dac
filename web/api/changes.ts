/** Something on the server is not what it was. Ids that do not matter to the change are absent. */
export interface Change {
  readonly bikeId?: string | null;
  readonly rideId?: string | null;
}

const kinds = ['bike', 'ride', 'gone'] as const;
const listeners = new Set<(change: Change) => void>();
let source: EventSource | null = null;

function open(): void {
  source = new EventSource('/api/events');
  for (const kind of kinds)
    source.addEventListener(kind, (event) => {
      const change = JSON.parse((event as MessageEvent<string>).data) as Change;
      for (const listener of [...listeners]) listener(change);
    });
}

/** Calls `listener` for everything that changes on the server until `signal` aborts. One connection serves the page. */
export function onChange(listener: (change: Change) => void, signal: AbortSignal): void {
  listeners.add(listener);
  if (!source || source.readyState === EventSource.CLOSED) open();
  signal.addEventListener(
    'abort',
    () => {
      listeners.delete(listener);
      if (listeners.size > 0) return;
      source?.close();
      source = null;
    },
    { once: true },
  );
}
