import { FileError } from '../errors/file-error.ts';
import type { FailedRide } from '../report/report-schema.ts';
import { isPartOfRide } from '../ride-log/part-of-ride.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import type { ReadRides } from './read-rides.ts';

/** Leaves out rides that are a stretch of another, as a copy that was cut or written in another format is: their shifts count once. */
export function leaveOutParts({ logs, failed }: ReadRides): ReadRides {
  const longestFirst = [...logs].sort((a, b) => b.timeS.length - a.timeS.length);
  const kept: RideLog[] = [];
  const parts = new Map<RideLog, FailedRide>();
  for (const log of longestFirst) {
    const whole = kept.find((other) => isPartOfRide(log, other));
    if (!whole) kept.push(log);
    else {
      const found = `holds only records of the ride ${whole.file}`;
      const { code, message } = new FileError(log.file, 'duplicate', found, 'They were counted once.');
      parts.set(log, { file: log.file, code, message });
    }
  }
  return { logs: logs.filter((log) => !parts.has(log)), failed: [...failed, ...parts.values()] };
}
