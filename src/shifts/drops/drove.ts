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

/** The records from a shift to the last turn of the legs; `end` exclusive. */
export interface LegsAfter {
  readonly start: number;
  readonly end: number;
}

/** Whether the legs drove the bike after a shift, by the power meter; null without one. */
export function worked(log: RideLog, legs: LegsAfter): boolean | null {
  const metered = turning(log, legs).filter((i) => !Number.isNaN(log.powerW[i]));
  return metered.length === 0 ? null : metered.filter((i) => log.powerW[i] >= WORKING_W).length >= WORKING_RECORDS;
}

/** The same, without a power meter by a ratio that rests on a gear. */
export const drove = (log: RideLog, trace: RideTrace, legs: LegsAfter): boolean =>
  worked(log, legs) ?? restsOnAGear(trace, turning(log, legs));

/** The records in which the legs turn once the sensors have settled. */
function turning({ timeS, cadenceRpm }: RideLog, { start, end }: LegsAfter): number[] {
  const records: number[] = [];
  for (let i = start; i < end; i++)
    if (timeS[i] - timeS[start] > SETTLES_S && cadenceRpm[i] > PEDALLING_RPM) records.push(i);
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
