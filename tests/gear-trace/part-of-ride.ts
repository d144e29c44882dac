import type { GearRecords, RideLog } from '../../src/ride-log/ride-log.ts';
import { someRecords } from './some-records.ts';

/** The records of a ride from `fromS` to `toS`, and the gear records from then on with the state that held at the start. */
export function partOfRide(log: RideLog, fromS: number, toS: number): RideLog {
  const inside = [...log.timeS.keys()].filter((i) => log.timeS[i] >= fromS && log.timeS[i] <= toS);
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
  return { ...someRecords(log, inside), gearRecords: records };
}
