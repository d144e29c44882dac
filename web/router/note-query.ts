import { note } from './go.ts';

/** Writes what is picked within a view into the address, where going back and loading anew find it; what is empty leaves the address. */
export function noteQuery(picked: Readonly<Record<string, string>>): void {
  const query = new URLSearchParams(location.search);
  for (const [name, value] of Object.entries(picked)) {
    if (value === '') query.delete(name);
    else query.set(name, value);
  }
  note(`${location.pathname}${query.size > 0 ? `?${query}` : ''}${location.hash}`);
}
