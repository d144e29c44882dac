/** What a view gets. `signal` aborts when the reader goes elsewhere. */
export interface Visit {
  readonly place: HTMLElement;
  readonly parts: Readonly<Record<string, string>>;
  readonly query: URLSearchParams;
  readonly signal: AbortSignal;
}

/** Draws a view into `visit.place`. It first shows that it is loading, then its contents or its error. */
export type View = (visit: Visit) => void;

interface Route {
  readonly pattern: RegExp;
  readonly names: readonly string[];
  readonly view: View;
}

/** Routes written as "/bikes/:id/sheet". */
export function makeRoutes(table: Readonly<Record<string, View>>): readonly Route[] {
  return Object.entries(table).map(([path, view]) => ({
    pattern: new RegExp(`^${path.replace(/:\w+/g, '([^/]+)')}/?$`),
    names: [...path.matchAll(/:(\w+)/g)].map((match) => match[1]),
    view,
  }));
}

/** Parts of a path, decoded; null where one cannot be. */
function decoded(parts: readonly string[]): string[] | null {
  try {
    return parts.map(decodeURIComponent);
  } catch {
    return null;
  }
}

/** The view for a path and the parts of the path it names; null where no route fits. */
export function findRoute(
  routes: readonly Route[],
  path: string,
): { view: View; parts: Record<string, string> } | null {
  for (const { pattern, names, view } of routes) {
    const match = pattern.exec(path);
    const parts = match && decoded(match.slice(1));
    if (parts) return { view, parts: Object.fromEntries(names.map((name, i) => [name, parts[i]])) };
  }
  return null;
}
