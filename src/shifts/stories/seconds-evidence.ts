import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { nearNormalBelow } from '../../numeric/near-normal.ts';
import { studentT4 } from '../../numeric/student-t.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';

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
 * @returns 0 for every development where the record holds no ratio
 */
export function secondsEvidence(
  log: RideLog,
  trace: RideTrace,
  independence: number,
): (record: number, logDevelopment: number) => number {
  return (record, logDevelopment) => {
    const y = trace.logDevelopment[record];
    const sd = trace.deviation[record];
    if (Number.isNaN(y) || Number.isNaN(sd)) return 0;
    const lift = y - logDevelopment;
    const z = lift / sd;
    const fell = !(trace.logDevelopment[record - 1] - y < FALLING_DEVIATIONS * sd);
    const catchesUp = fell && !(log.cadenceRpm[record] < RISING * log.cadenceRpm[record - 1]);
    const free = Math.max(freeShare(log.powerW[record], trace.driving[record]), catchesUp ? FREE_WHILE_CATCHING_UP : 0);
    const peak = studentT4(z, sd);
    const foot = z > LOWEST_FOOT ? nearNormalBelow(z) : 0;
    const above = foot / FREE_REACH;
    return independence * Math.log((1 - free) * peak + free * above + OUTLIER_DENSITY);
  };
}

/** Chances that a second with the cranks turning was not driving, by its power below each bound. Assumptions of ours. */
const FREE_BY_POWER = [
  { belowW: 10, free: 0.9 },
  { belowW: 40, free: 0.4 },
  { belowW: Number.POSITIVE_INFINITY, free: 0.02 },
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
