import type { GearRecords, RideLog } from '../../../src/ride-log/ride-log.ts';

const MIN_CADENCE_RPM = 50;
const MIN_SPEED_MPS = 3;
const MIN_POWER_W = 30;
const LONGEST_STEP_S = 1.5;

/** Index of the first record at or after `t`; the length where there is none. */
export function recordAt(timeS: Float64Array, t: number): number {
  let low = 0;
  let high = timeS.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timeS[middle] >= t) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Whether the rider pedalled firmly at every record from `fromS` to `toS`, without a gap. */
export function pedalledFirmly(log: RideLog, fromS: number, toS: number): boolean {
  const first = recordAt(log.timeS, fromS);
  for (let i = first; i < log.timeS.length && log.timeS[i] <= toS; i++) {
    if (i > first && log.timeS[i] - log.timeS[i - 1] > LONGEST_STEP_S) return false;
    if (!(log.cadenceRpm[i] > MIN_CADENCE_RPM && log.speedMps[i] > MIN_SPEED_MPS && log.powerW[i] > MIN_POWER_W))
      return false;
  }
  const last = recordAt(log.timeS, toS);
  return first < log.timeS.length && log.timeS[first] - fromS < LONGEST_STEP_S && last < log.timeS.length;
}

/** Whether no gear record lies from `fromS` to `toS`. */
export function noRecordWithin({ timeS }: GearRecords, fromS: number, toS: number): boolean {
  const next = recordAt(timeS, fromS);
  return next === timeS.length || timeS[next] > toS;
}

/** Median log of metres a crank turn from `fromS` to `toS`; NaN without a value. */
export function medianLogDevelopment(log: RideLog, fromS: number, toS: number): number {
  const values: number[] = [];
  for (let i = recordAt(log.timeS, fromS); i < log.timeS.length && log.timeS[i] <= toS; i++) {
    const value = Math.log((log.speedMps[i] * 60) / log.cadenceRpm[i]);
    if (Number.isFinite(value)) values.push(value);
  }
  values.sort((a, b) => a - b);
  return values.length === 0 ? Number.NaN : values[values.length >> 1];
}
