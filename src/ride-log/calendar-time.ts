const EARLIEST_MS = Date.UTC(1900, 0);
const LATEST_MS = Date.UTC(2200, 0);

/** The moment itself where a ride may have been at it (years 1900 to 2199), else NaN: what lies beyond is another unit or a slip. */
export const calendarTimeMs = (timeMs: number): number => (timeMs >= EARLIEST_MS && timeMs < LATEST_MS ? timeMs : NaN);
