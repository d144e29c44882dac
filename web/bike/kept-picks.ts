import { noteQuery } from '../router/note-query.ts';

const kept = ['opening', 'adjustment'] as const;

/** What the address says was picked in the sections of a bike's page. */
export const keptPicks = (query: URLSearchParams): Map<string, string> =>
  new Map(kept.flatMap((name) => (query.has(name) ? [[name, query.get(name)!] as const] : [])));

/** Picks something and keeps it in the address. */
export function keepPick(picks: Map<string, string>, name: (typeof kept)[number], value: string): void {
  picks.set(name, value);
  noteQuery({ [name]: value });
}
