import { hasClock } from '../../src/ride-log/has-clock.ts';

const wholeDay = { day: 'numeric', month: 'long', year: 'numeric' } as const;
const dayFormat = new Intl.DateTimeFormat('en-GB', wholeDay);
const shortDayFormat = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short' });
const clockFormat = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit', second: '2-digit' });
const minuteFormat = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });

/** Without a clock a log's dates mean nothing. */
export const isDated = (iso: string): boolean => hasClock(Date.parse(iso));

/** "3 May 2026", in the reader's own time zone. */
export const day = (iso: string): string => (isDated(iso) ? dayFormat.format(new Date(iso)) : 'date not recorded');

const calendarFormat = new Intl.DateTimeFormat('en-GB', { ...wholeDay, timeZone: 'UTC' });

/** "3 May 2026" for a day of the calendar, "2026-05-03", which is the same in every time zone. */
export const calendarDay = (date: string): string => calendarFormat.format(new Date(date));

/** "3 May". */
export const shortDay = (iso: string): string => (isDated(iso) ? shortDayFormat.format(new Date(iso)) : 'no date');

/** "3 May 2026, 14:05". */
export const dayAndTime = (iso: string): string =>
  isDated(iso) ? `${day(iso)}, ${minuteFormat.format(new Date(iso))}` : 'date not recorded';

/** "14:05:09". */
export const clock = (iso: string): string => clockFormat.format(new Date(iso));

/** Seconds since a ride's start as "1:04:09" or "4:09". */
export function rideClock(seconds: number): string {
  const whole = Math.max(0, Math.round(seconds));
  const hours = Math.floor(whole / 3600);
  const rest = `${String(Math.floor((whole % 3600) / 60)).padStart(hours ? 2 : 1, '0')}:${String(whole % 60).padStart(2, '0')}`;
  return hours ? `${hours}:${rest}` : rest;
}

/** Seconds since a ride's start from "1:04:09" or "4:09"; null where the text is neither. */
export function fromRideClock(text: string): number | null {
  const found = /^(?:(\d{1,3}):)?(\d{1,3}):([0-5]\d)$/.exec(text.trim());
  if (!found) return null;
  const [, hours, minutes, seconds] = found;
  if (hours !== undefined && Number(minutes) > 59) return null;
  return Number(hours ?? 0) * 3600 + Number(minutes) * 60 + Number(seconds);
}

/** For a datetime-local field, in the reader's own time zone: "2026-05-03T14:05". */
export function fieldTime(date: Date): string {
  const local = new Date(date.getTime() - date.getTimezoneOffset() * 60_000);
  return local.toISOString().slice(0, 16);
}

/**
 * The moment that a datetime-local field names, ISO 8601 in UTC; empty for an empty field and for a year of more than four
 * digits, which browsers let a reader type and no date can be read from. The field knows no seconds: where it still shows the
 * moment `before`, that moment is given back as it is.
 */
export function fieldMoment(value: string, before?: string): string {
  if (before !== undefined && value === fieldTime(new Date(before))) return before;
  const moment = new Date(value);
  return Number.isNaN(moment.getTime()) ? '' : moment.toISOString();
}

const utcDay = (iso: string): string => new Date(iso).toISOString().slice(0, 10);

/**
 * A sentence of the report with its dates in the reader's own time zone, as all others on the page are. The report writes
 * them in UTC: moments as "2026-05-03 14:05 UTC", adjustments by their day alone, and rides by theirs as "the ride of 2026-05-03".
 *
 * @param adjustedAt when adjustments were made; a day on which none was, or several that fall on different days here, keeps its date, marked as UTC
 * @param riddenAt when rides began, to be taken in the same way
 */
export const inOwnZone = (sentence: string, adjustedAt: readonly string[], riddenAt: readonly string[] = []): string =>
  sentence.replace(
    /(rides? (?:of|since) )?(\d{4}-\d\d-\d\d)(?: (\d\d:\d\d) UTC)?/g,
    (_, ride: string | undefined, date: string, time: string | undefined) => {
      if (time) return `${ride ?? ''}${dayAndTime(`${date}T${time}:00Z`)}`;
      const moments = ride === undefined ? adjustedAt : riddenAt;
      const [only, ...others] = new Set(moments.filter((at) => utcDay(at) === date).map(day));
      return `${ride ?? ''}${only === undefined || others.length > 0 ? `${date} (UTC)` : only}`;
    },
  );
