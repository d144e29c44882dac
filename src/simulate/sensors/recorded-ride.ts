import type { RideLog } from '../../ride-log/ride-log.ts';

/** A ride as a device recorded it: the log, and which way recorded gear times came about. */
export interface RecordedRide {
  readonly log: RideLog;
  /** Time that the gear record of each command carries, s since the start; same order as the track's commands. */
  readonly commandRecordedS: Float64Array;
}
