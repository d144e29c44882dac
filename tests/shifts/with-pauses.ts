import type { RideLog } from '../../src/ride-log/ride-log.ts';

/** The same ride with its recording paused: all records and gear records from each of these seconds on are `pauseS` later. */
export function withPauses(log: RideLog, atS: readonly number[], pauseS: number): RideLog {
  const later = (timesS: Float64Array): Float64Array =>
    timesS.map((timeS) => timeS + pauseS * atS.filter((pausedAtS) => pausedAtS <= timeS).length);
  return {
    ...log,
    timeS: later(log.timeS),
    gearRecords: { ...log.gearRecords, timeS: later(log.gearRecords.timeS) },
  };
}
