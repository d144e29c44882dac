import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { IDLE_W } from './rider-power.ts';

/** Sensors show what was before the shift for so long, and the legs turn the chain off the cogs meanwhile. */
const SETTLES_S = 2;
/** So many records with power show that the legs drove the bike. */
const POWERED_RECORDS = 2;
/** Without a power meter, so many records in a row on one gear do: a bike that rolls out passes the gears. */
const RESTING_RECORDS = 3;
/** Within so many deviations of a gear's development a record is on it. */
const ON_GEAR_DEVIATIONS = 1.5;

/** Whether the legs drove the bike after a shift, by power where it is measured, else by a ratio that rests on a gear. */
export function drove(log: RideLog, trace: RideTrace, { start, end }: { start: number; end: number }): boolean {
  const { timeS, cadenceRpm, powerW } = log;
  const turning: number[] = [];
  for (let i = start; i < end; i++)
    if (timeS[i] - timeS[start] > SETTLES_S && cadenceRpm[i] > PEDALLING_RPM) turning.push(i);
  const metered = turning.filter((i) => !Number.isNaN(powerW[i]));
  if (metered.length > 0) return metered.filter((i) => powerW[i] >= IDLE_W).length >= POWERED_RECORDS;
  return restsOnAGear(trace, turning);
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
