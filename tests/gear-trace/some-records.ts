import type { RideLog } from '../../src/ride-log/ride-log.ts';

/** A ride with some of its records alone, by their places; its gear records stay. */
export function someRecords(log: RideLog, kept: readonly number[]): RideLog {
  const pick = (column: Float64Array): Float64Array => Float64Array.from(kept, (i) => column[i]);
  return {
    ...log,
    timeS: pick(log.timeS),
    speedMps: pick(log.speedMps),
    cadenceRpm: pick(log.cadenceRpm),
    powerW: pick(log.powerW),
    distanceM: pick(log.distanceM),
  };
}
