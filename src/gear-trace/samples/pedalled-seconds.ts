import { sum } from 'd3-array';
import type { PedallingSamples } from './pedalling-samples.ts';

/** A longer step between two records is a pause or lost records, and nothing is known within it. */
const LONGEST_STEP_S = 10;

/** Which records the cranks turned at, and how long after the records before. */
export type TurningCranks = Pick<PedallingSamples, 'pedalling' | 'dtS'>;

/** Seconds that the cranks turned in the step before a record: what all seconds and hours of pedalling that are told are sums of. */
export function pedalledSeconds({ pedalling, dtS }: TurningCranks, record: number): number {
  return record > 0 && pedalling[record] && dtS[record] <= LONGEST_STEP_S ? dtS[record] : 0;
}

/** Seconds pedalled in a whole ride; 0 without cadence. */
export function allPedalledSeconds(samples: TurningCranks): number {
  return sum(samples.dtS, (_, record) => pedalledSeconds(samples, record));
}
