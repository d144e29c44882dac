import type { GearRecords, RideLog } from '../../src/ride-log/ride-log.ts';

/** The records of a ride from `fromS` to `toS`, and the gear records from then on with the state that held at the start. */
export function partOfRide(log: RideLog, fromS: number, toS: number): RideLog {
  const inside = log.timeS.map((t) => (t >= fromS && t <= toS ? 1 : 0));
  const pick = (column: Float64Array): Float64Array => column.filter((_, i) => inside[i] === 1);
  const { gearRecords } = log;
  const state = gearRecords.timeS.findLastIndex((t) => t < fromS);
  const kept = (i: number): boolean => i === state || (gearRecords.timeS[i] >= fromS && gearRecords.timeS[i] <= toS);
  const keep = <T extends Float64Array | Uint8Array>(column: T): T => column.filter((_, i) => kept(i)) as unknown as T;
  const records: GearRecords = {
    timeS: keep(gearRecords.timeS),
    rearTeeth: keep(gearRecords.rearTeeth),
    rearPosition: keep(gearRecords.rearPosition),
    frontTeeth: keep(gearRecords.frontTeeth),
    frontPosition: keep(gearRecords.frontPosition),
    wholeSeconds: gearRecords.wholeSeconds,
  };
  return {
    ...log,
    timeS: pick(log.timeS),
    speedMps: pick(log.speedMps),
    cadenceRpm: pick(log.cadenceRpm),
    powerW: pick(log.powerW),
    distanceM: pick(log.distanceM),
    gearRecords: records,
  };
}
