import type { TurningCranks } from './pedalled-seconds.ts';

/** Over a step longer than this one record of the ride says nothing of how far apart its records are: it is a pause. */
const PAUSE_S = 60;
/** Records further apart than this are sparse: a late shift may begin and end between two of them. */
export const SPARSE_STEP_S = 2;

/**
 * How far apart a ride's records typically are, s: half of the time pedalled lies within longer steps, half within shorter ones. Counted by
 * time and not by records, since a recorder that writes at uneven intervals writes most records where it writes densely.
 *
 * @returns NaN for a ride without pedalling
 */
export function typicalStepS({ pedalling, dtS }: TurningCranks): number {
  const steps = dtS.filter((step, i) => i > 0 && pedalling[i] === 1 && step <= PAUSE_S).sort();
  const half = steps.reduce((sum, step) => sum + step, 0) / 2;
  let sum = 0;
  for (const step of steps) {
    sum += step;
    if (sum >= half) return step;
  }
  return Number.NaN;
}

/** True where records so far apart are the ride's rule. */
export const isSparse = (samples: TurningCranks): boolean => typicalStepS(samples) > SPARSE_STEP_S;
