/** The day of a moment (ISO 8601 or Unix milliseconds) in UTC, where the day is enough: `2026-04-12`. */
export const utcDay = (moment: string | number): string => new Date(moment).toISOString().slice(0, 10);

/**
 * A moment in a sentence, in UTC to the minute.
 *
 * @example utcMoment('2026-04-12T18:30:12Z') // '2026-04-12 18:30 UTC'
 */
export const utcMoment = (iso: string): string => `${utcDay(iso)} ${new Date(iso).toISOString().slice(11, 16)} UTC`;
