import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { nearNormalBelow } from '../../numeric/near-normal.ts';
import { studentT4 } from '../../numeric/student-t.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import type { SoftAfterShift } from './soft-after-shift.ts';

/** Density of records that no gear explains, anywhere (log development). */
const OUTLIER_DENSITY = 0.02;
/** Freewheeling and soft-pedalling lift the log ratio by anything up to this, each lift as likely as another. */
const FREE_REACH = 1.2;
/** So many deviations below the gear no lift is possible. */
const LOWEST_FOOT = -20;

/**
 * Log likelihood of one record of the ride if the chain was (on average over the record's reach) at a given log
 * development: a heavy-tailed peak when driving, anywhere above when soft-pedalling, and a few outliers.
 *
 * @param independence share of independent evidence in one record: sensors err in runs
 * @param soft where the rider's legs may trail the wheel for a shift's sake; nowhere by default
 * @returns 0 for every development where the record holds no ratio
 */
export function secondsEvidence(
  log: RideLog,
  trace: RideTrace,
  independence: number,
  soft: SoftAfterShift | null = null,
): (record: number, logDevelopment: number) => number {
  return (record, logDevelopment) => {
    const y = trace.logDevelopment[record];
    const sd = trace.deviation[record];
    if (Number.isNaN(y) || Number.isNaN(sd)) return 0;
    const lift = y - logDevelopment;
    const z = lift / sd;
    const fell = !(trace.logDevelopment[record - 1] - y < FALLING_DEVIATIONS * sd);
    const catchesUp = fell && !(log.cadenceRpm[record] < RISING * log.cadenceRpm[record - 1]);
    const trails = soft?.records[record] ? soft.share : 0;
    const free = Math.max(
      freeShare(log.powerW[record], trace.driving[record]),
      catchesUp ? FREE_WHILE_CATCHING_UP : 0,
      trails,
    );
    const peak = studentT4(z, sd);
    const foot = z > LOWEST_FOOT ? nearNormalBelow(z) : 0;
    const above = foot * liftDensity(lift, trails / free);
    return independence * Math.log((1 - free) * peak + free * above + OUTLIER_DENSITY);
  };
}

/** Legs that are soft for a shift's sake trail the wheel by little, log ratio; a part of them by as much as any others. Assumptions of ours. */
const TRAILING = { lift: 0.1, share: 0.75 };

/** How likely a lift is where legs do not drive: of those that trail for a shift's sake, part of all, it is mostly small. */
function liftDensity(lift: number, trailing: number): number {
  const small = trailing * TRAILING.share;
  return (1 - small) / FREE_REACH + (small / TRAILING.lift) * Math.exp(-Math.max(0, lift) / TRAILING.lift);
}

/**
 * Chances that a second with the cranks turning was not driving, by its power below each bound: assumptions of ours, after how often the ratio lies
 * above the commanded gear in one real ride of 20 h (`npm run accuracy -- --only real`: 55 % from 0.5 to 10 W, 52 % to 40 W, 30 % to 80 W, 4 %
 * above). Legs that trail the wheel by a hair are not seen there, so the first is taken higher; without any power there are too few seconds to go by.
 */
const FREE_BY_POWER = [
  { belowW: 0.5, free: 0.98 },
  { belowW: 10, free: 0.7 },
  { belowW: 40, free: 0.5 },
  { belowW: 80, free: 0.25 },
  { belowW: Number.POSITIVE_INFINITY, free: 0.04 },
] as const;
/** The same without power: where the trace is sure of driving, and how much it grows to where it is sure of not. */
const FREE_BY_TRACE = { driving: 0.08, more: 0.4 } as const;

/**
 * Legs that gather pace are shown late by sensors that average, and catch up with the wheel first: the ratio falls, or has only just
 * begun, while the cadence rises. Chance that it then still lies above the gear, whatever the power. Assumptions of ours.
 */
const FREE_WHILE_CATCHING_UP = 0.4;
/** From one record to the next: how much faster the legs turn, and how many deviations the log ratio falls. */
const RISING = 1.08;
const FALLING_DEVIATIONS = 2;

/** Chance that a second with the cranks turning was not driving: from its power, else from what the trace makes of the seconds around. */
function freeShare(powerW: number, driving: number): number {
  const byPower = FREE_BY_POWER.find(({ belowW }) => powerW < belowW);
  return byPower ? byPower.free : FREE_BY_TRACE.driving + FREE_BY_TRACE.more * (1 - driving);
}
