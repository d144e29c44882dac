/** No clock that was set reads earlier than this; a log without a clock counts from 1970, a recorder never set from 1989. */
const EARLIEST_MS = Date.UTC(1995, 0);

/**
 * True where a ride's moments are those of a calendar, so that it can be set before or after an adjustment.
 *
 * @param startMs Unix milliseconds of the ride's start, as in `RideLog.startMs`
 */
export const hasClock = (startMs: number): boolean => startMs >= EARLIEST_MS;
