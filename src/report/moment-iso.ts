/**
 * ISO 8601 time in UTC, to the millisecond, of a moment `timeS` seconds after a ride's start.
 *
 * @example momentIso(0, 1.5) // '1970-01-01T00:00:01.500Z'
 */
export function momentIso(startMs: number, timeS: number): string {
  return new Date(startMs + Math.round(timeS * 1000)).toISOString();
}
