import { hasClock } from '../../src/ride-log/has-clock.ts';

/** ISO time of a ride's start; null where its log has no clock. */
export const clockedIso = (startMs: number): string | null =>
  hasClock(startMs) ? new Date(startMs).toISOString() : null;
