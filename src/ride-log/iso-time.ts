const ISO = /^(\d{4})-(\d{2})-(\d{2})[T ](\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?\s*(Z|[+-]\d{2}(?::?\d{2})?)?$/i;

/**
 * Unix milliseconds of an ISO 8601 time; NaN where it is none: also a day without a time (as a file cut off within its last line holds), one that its month does not have, or past 24:00. A time without a zone is taken as UTC, whatever the zone
 * of this machine; `hasTimeZone` tells.
 */
export function isoTimeMs(text: string): number {
  const match = ISO.exec(text.trim());
  if (!match) return NaN;
  const [, year, month, day, hour, minute, second = '0', fraction = '', zone] = match;
  if (!isDay(+year, +month, +day) || +hour > 24 || +minute > 59 || +second > 60) return NaN;
  if (+hour === 24 && +`${minute}${second}${fraction}` > 0) return NaN;
  const ms = Date.UTC(+year, +month - 1, +day, +hour, +minute, +second) + Math.round(+`0.${fraction || '0'}` * 1000);
  return ms - zoneMs(zone);
}

/** Whether an ISO 8601 time says which zone it is of. */
export const hasTimeZone = (text: string): boolean => /(Z|[T ].*[+-]\d{2}(:?\d{2})?)\s*$/i.test(text);

/** Within a month: `Date.UTC` rolls a day over that the month does not have. */
function isDay(year: number, month: number, day: number): boolean {
  return month >= 1 && month <= 12 && day >= 1 && day <= new Date(Date.UTC(year, month, 0)).getUTCDate();
}

function zoneMs(zone: string | undefined): number {
  if (zone === undefined || zone.toUpperCase() === 'Z') return 0;
  const minutes = +zone.slice(1, 3) * 60 + +(zone.slice(3).replace(':', '') || '0');
  return (zone[0] === '-' ? -1 : 1) * minutes * 60_000;
}
