import type { RideLog } from '../../ride-log/ride-log.ts';
import { logDevelopmentColumn, type PedallingSamples } from '../samples/pedalling-samples.ts';
import { type DevelopmentHistogram, GrowingHistogram } from './development-histogram.ts';

/** In one gear the log development moves by no more than this from one record to the next. */
const STEADY = 0.045;
/** With less power or a slower cadence the legs may not drive. */
const MIN_POWER_W = 20;
const MIN_CADENCE_RPM = 40;

/** Counts the records whose ratio stays within 4.5 % of both neighbours': shifts, freewheeling and starts fall out. */
export function steadyHistogram(log: RideLog, samples: PedallingSamples, speedLagS: number): DevelopmentHistogram {
  const column = logDevelopmentColumn(log, samples, speedLagS);
  const histogram = new GrowingHistogram();
  for (let i = 1; i + 1 < column.length; i++) {
    const steady = Math.abs(column[i] - column[i - 1]) < STEADY && Math.abs(column[i + 1] - column[i]) < STEADY;
    if (!steady || log.powerW[i] < MIN_POWER_W || log.cadenceRpm[i] < MIN_CADENCE_RPM) continue;
    histogram.add(column[i], samples.dtS[i]);
  }
  return histogram;
}
