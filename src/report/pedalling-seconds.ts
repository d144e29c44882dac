/** Cadence above which the rider is pedalling, as the contract counts it. */
const pedallingRpm = 30;
/** A longer step between two records is a pause or lost records, and nothing is known within it. */
const longestStepS = 10;

/** Seconds pedalled (over 30 rpm). Pauses and lost records do not count; 0 without cadence. */
export function pedallingSeconds(timeS: Float64Array, cadenceRpm: Float64Array): number {
  let seconds = 0;
  for (let i = 1; i < timeS.length; i++) {
    const step = timeS[i] - timeS[i - 1];
    if (step <= longestStepS && cadenceRpm[i] > pedallingRpm) seconds += step;
  }
  return seconds;
}
