import { median, min } from 'd3-array';
import type { RideLog } from '../../ride-log/ride-log.ts';

/** Records before and after that tell the usual power. */
const USUAL_RECORDS = 3;
/** The least power about a slip is below this share of the usual: a chain that slips pulls at nothing, and startled legs ease off (assumption of ours). */
const SAGS_BELOW = 0.67;

/**
 * Whether the power sags in a run of records or in the record before it, beside that of the seconds about: steady legs that run faster bring more
 * of it, unless nothing holds them. False without power.
 */
export function losesPower(
  { powerW }: RideLog,
  { start, end }: { readonly start: number; readonly end: number },
): boolean {
  const about = [
    ...powerW.subarray(Math.max(0, start - USUAL_RECORDS - 1), start - 1),
    ...powerW.subarray(end, end + USUAL_RECORDS),
  ];
  const usualW = median(about) ?? Number.NaN;
  return (min(powerW.subarray(start - 1, end)) ?? Number.NaN) < SAGS_BELOW * usualW;
}
