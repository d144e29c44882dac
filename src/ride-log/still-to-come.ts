import type { Warning } from '../errors/warning.ts';
import { utcDay } from '../numeric/moment-words.ts';
import { DAY_MS } from '../numeric/time-units.ts';
import type { RideLog } from './ride-log.ts';

/** Code of the warning that a ride is dated in the time to come. */
export const rideToComeCode = 'ride-to-come';

/** Clocks differ, and a day may have begun elsewhere. */
const AHEAD_MS = DAY_MS;

/** True for a time later than any clock can show now. Both Unix milliseconds. */
export const isStillToCome = (atMs: number, nowMs: number): boolean => atMs > nowMs + AHEAD_MS;

/** Says of a ride that its start is still to come; null where it is not. The engine knows no clock: whoever reads the file asks. */
export function rideToCome({ startMs }: Pick<RideLog, 'startMs'>, nowMs: number): Warning | null {
  if (!isStillToCome(startMs, nowMs)) return null;
  return {
    code: rideToComeCode,
    message: `It is dated ${utcDay(startMs)}, a day still to come, and so stands as the newest ride, by which the verdict goes: mend the date, and look whether the recorder's clock is right.`,
  };
}

/** The ride with that warning among its own. */
export function warnOfRideToCome(log: RideLog, nowMs: number): RideLog {
  const warning = rideToCome(log, nowMs);
  return warning ? { ...log, warnings: [...log.warnings, warning] } : log;
}
