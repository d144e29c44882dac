import type { RideReport } from '../../src/report/ride-report-schema.ts';

/** What an event is: a shift asked for, an unasked one, a lost chain or a skip. */
export type EventKind = 'shift' | 'ghost' | 'drop' | 'skip';

/** The lists of a ride's report that hold events, and the kind of each. */
const eventLists = {
  shifts: 'shift',
  ghostShifts: 'ghost',
  chainDrops: 'drop',
  skips: 'skip',
} as const satisfies Partial<Record<keyof RideReport, EventKind>>;

/**
 * Names an event of a ride in a way that outlives its analysis: kind and moment, Unix milliseconds.
 *
 * @example eventKey('shift', '2026-04-12T18:30:00.000Z') // 'shift-1776018600000'
 */
export const eventKey = (kind: EventKind, at: string): string => `${kind}-${Date.parse(at)}`;

/** Keys of every event of a ride. */
export const eventKeys = (report: Pick<RideReport, keyof typeof eventLists>): string[] =>
  Object.entries(eventLists).flatMap(([list, kind]) =>
    report[list as keyof typeof eventLists].map(({ at }) => eventKey(kind, at)),
  );

/** What a key names: the kind of event and its moment, Unix milliseconds. */
export function keyMoment(key: string): { readonly kind: string; readonly ms: number } {
  const dash = key.indexOf('-');
  return { kind: key.slice(0, dash), ms: Number(key.slice(dash + 1)) };
}
