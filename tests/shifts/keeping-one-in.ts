import type { RideLog } from '../../src/ride-log/ride-log.ts';

/** The same ride as a recorder wrote it that keeps one record in so many. */
export function keepingOneIn(every: number, log: RideLog): RideLog {
  const kept = (column: Float64Array): Float64Array => column.filter((_, i) => i % every === 0);
  return {
    ...log,
    timeS: kept(log.timeS),
    speedMps: kept(log.speedMps),
    cadenceRpm: kept(log.cadenceRpm),
    powerW: kept(log.powerW),
    distanceM: kept(log.distanceM),
  };
}
