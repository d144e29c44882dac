import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { WORKING_W } from './rider-power.ts';

/** Sensors show what was before the shift for so long, and the legs turn the chain off the cogs meanwhile. */
const SETTLES_S = 2;
/** So many records with work show that the legs drove the bike: a power meter that averages shows one or two after the chain is gone. */
const WORKING_RECORDS = 3;
/** Without a power meter, so many records in a row on one gear do: a bike that rolls out passes the gears. */
const RESTING_RECORDS = 3;
/** Within so many deviations of a gear's development a record is on it. */
const ON_GEAR_DEVIATIONS = 1.5;

/** The records from a shift on; `end` exclusive. */
export interface RecordsAfter {
  readonly start: number;
  readonly end: number;
}

/** Whether the legs drove the bike after a shift, by the power meter; null without one. */
export function worked({ timeS, powerW }: RideLog, records: RecordsAfter): boolean | null {
  const metered = settled(timeS, records).filter((i) => !Number.isNaN(powerW[i]));
  return metered.length === 0 ? null : metered.filter((i) => powerW[i] >= WORKING_W).length >= WORKING_RECORDS;
}

/** The same, without a power meter by a ratio that rests on a gear. */
export const drove = (log: RideLog, trace: RideTrace, records: RecordsAfter): boolean =>
  worked(log, records) ??
  restsOnAGear(
    trace,
    settled(log.timeS, records).filter((i) => log.cadenceRpm[i] > PEDALLING_RPM),
  );

function settled(timeS: Float64Array, { start, end }: RecordsAfter): number[] {
  const records: number[] = [];
  for (let i = start; i < end; i++) if (timeS[i] - timeS[start] > SETTLES_S) records.push(i);
  return records;
}

function restsOnAGear({ model, logDevelopment, deviation }: RideTrace, records: readonly number[]): boolean {
  return Array.from(model?.logDevelopment ?? []).some((level) => {
    let inRow = 0;
    return records.some((i) => {
      inRow = Math.abs(logDevelopment[i] - level) < ON_GEAR_DEVIATIONS * deviation[i] ? inRow + 1 : 0;
      return inRow === RESTING_RECORDS;
    });
  });
}
