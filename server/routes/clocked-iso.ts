/** Earlier than this no ride was recorded with a clock: logs without one count from 1970. */
const firstClockMs = Date.UTC(1980, 0);

/** ISO time of a ride's start; null where its log has no clock. */
export const clockedIso = (startMs: number): string | null =>
  startMs >= firstClockMs ? new Date(startMs).toISOString() : null;
