import type { RideLog } from '../../ride-log/ride-log.ts';
import { logDevelopmentColumn, type PedallingSamples } from '../samples/pedalling-samples.ts';

/** Seconds of steady pedalling by log development. Bin b covers `lowest + b * width` to `lowest + (b + 1) * width`. */
export interface DevelopmentHistogram {
  readonly lowest: number;
  readonly width: number;
  readonly seconds: Float64Array;
  readonly totalS: number;
}

const LOWEST = Math.log(0.6);
const HIGHEST = Math.log(14);
const WIDTH = 0.004;
const STEADY = 0.045;
/** A record speaks for no longer a step before it: these are weights of levels, not a count of time. */
const LONGEST_STEP_S = 3;

/** Counts the records whose ratio stays within 4.5 % of both neighbours': shifts, freewheeling and starts fall out. */
export function steadyHistogram(log: RideLog, samples: PedallingSamples, speedLagS: number): DevelopmentHistogram {
  const column = logDevelopmentColumn(log, samples, speedLagS);
  const seconds = new Float64Array(Math.ceil((HIGHEST - LOWEST) / WIDTH));
  let totalS = 0;
  for (let i = 1; i + 1 < column.length; i++) {
    const steady = Math.abs(column[i] - column[i - 1]) < STEADY && Math.abs(column[i + 1] - column[i]) < STEADY;
    if (!steady || log.powerW[i] < 20 || log.cadenceRpm[i] < 40) continue;
    const bin = Math.floor((column[i] - LOWEST) / WIDTH);
    if (bin < 0 || bin >= seconds.length) continue;
    const dt = Math.min(samples.dtS[i], LONGEST_STEP_S);
    seconds[bin] += dt;
    totalS += dt;
  }
  return { lowest: LOWEST, width: WIDTH, seconds, totalS };
}
