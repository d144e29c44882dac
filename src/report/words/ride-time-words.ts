import { hasClock } from '../../ride-log/has-clock.ts';

/** Date and time of day in UTC, `2026-04-12 18:30`; `no date` for a log without a clock. */
export function utcDayAndTime(iso: string): string {
  return hasClock(Date.parse(iso)) ? new Date(iso).toISOString().slice(0, 16).replace('T', ' ') : 'no date';
}

/** Time since the ride's start: `1:02:03`. */
export function sinceStart(startIso: string, iso: string): string {
  const seconds = Math.max(0, Math.round((Date.parse(iso) - Date.parse(startIso)) / 1000));
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
}

/** Length of time as hours and minutes: `3:05`. */
export function hoursAndMinutes(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
}
