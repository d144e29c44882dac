/** An hour in milliseconds. */
export const HOUR_MS = 3_600_000;
/** A day in milliseconds. */
export const DAY_MS = 24 * HOUR_MS;
