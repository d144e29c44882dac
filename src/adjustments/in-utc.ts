/**
 * An ISO 8601 time with its zone, written in UTC and with seconds: everything after reads days off its text. What is in UTC already, and what
 * is no time, comes back as it is; so does a time whose year in UTC has no four digits.
 *
 * @example inUtc('2026-05-04T00:30:00+02:00') // '2026-05-03T22:30:00Z'
 */
export function inUtc(iso: string): string {
  if (/T\d\d:\d\dZ$/.test(iso)) return iso.replace(/Z$/, ':00Z');
  const ms = iso.endsWith('Z') ? Number.NaN : Date.parse(iso);
  if (Number.isNaN(ms)) return iso;
  const utc = new Date(ms).toISOString().replace('.000Z', 'Z');
  return /^\d{4}-/.test(utc) ? utc : iso;
}
