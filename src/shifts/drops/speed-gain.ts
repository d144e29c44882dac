import type { RideLog } from '../../ride-log/ride-log.ts';

/** Slowest first-order lag of a satellite speed, and how long the rise that it holds back is waited for. */
export const SLOWEST_LAG_S = 3;
/** A driven bike shows at least this part of the rise that the slowest lag would leave of what the legs promise. */
const LEAST_RISE = 0.3;
/** Noise raises the highest of some readings a little. */
const NOISE_GAIN = 1.01;

/** Highest speed within the sensors' lag after a run of records, over that of the run's first. */
export function speedGain(log: RideLog, start: number, end: number): number {
  let highest = 0;
  for (let i = start; i < log.timeS.length && (i < end || log.timeS[i] - log.timeS[end - 1] <= SLOWEST_LAG_S); i++)
    highest = Math.max(highest, log.speedMps[i] || 0);
  return highest / log.speedMps[start];
}

/**
 * Largest gain of speed that speaks for a lost drive. Legs that run ahead of the gear by `promise` (log share x seconds) would
 * have sped up a driven bike, and even the slowest sensor would show some of it: d ln(speed) = share x dt / lag.
 */
export function gainWithoutDrive(promise: number): number {
  return Math.max(NOISE_GAIN, Math.exp((LEAST_RISE * promise) / SLOWEST_LAG_S));
}
