import { PEDALLING_RPM } from '../gear-trace/pedalling-rpm.ts';

/** A longer step between two records is a pause or lost records, and nothing is known within it. */
const longestStepS = 10;

/** Seconds pedalled (over `PEDALLING_RPM`). Pauses and lost records do not count; 0 without cadence. */
export function pedallingSeconds(timeS: Float64Array, cadenceRpm: Float64Array): number {
  let seconds = 0;
  for (let i = 1; i < timeS.length; i++) {
    const step = timeS[i] - timeS[i - 1];
    if (step <= longestStepS && cadenceRpm[i] > PEDALLING_RPM) seconds += step;
  }
  return seconds;
}
