import { quantile } from 'd3-array';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';

/** The cadence that this share of a ride's records with turning cranks does not exceed is about the fastest that the rider pedals. */
const FASTEST_SHARE = 0.97;
/** A reading leaps where it goes this much beyond that from one record to the next. */
const LEAP = 1.12;
/** Readings that leap more often than this are the sensor's: no rider loses the chain so often. An assumption of ours. */
const MOST_AN_HOUR = 12;

/** Fewer in all may be drops or slips of the sensor. */
const LEAST_LEAPS = 6;

/**
 * Whether the cadence of a ride leaps time and again: on rough ground riders turn the cranks to and fro, and many sensors count every pass.
 * Single leaps then say nothing about a lost chain.
 */
export function leapingCadence({ timeS, cadenceRpm }: Pick<RideLog, 'timeS' | 'cadenceRpm'>): boolean {
  const fastest = quantile(
    cadenceRpm.filter((rpm) => rpm > PEDALLING_RPM),
    FASTEST_SHARE,
  );
  if (fastest === undefined) return false;
  let leaps = 0;
  for (let i = 1; i < timeS.length; i++) if (cadenceRpm[i] > LEAP * fastest && cadenceRpm[i - 1] < fastest) leaps++;
  return leaps > MOST_AN_HOUR * ((timeS[timeS.length - 1] - timeS[0]) / 3600) && leaps >= LEAST_LEAPS;
}
