import type { RideTrace } from '../gear-trace/gear-trace.ts';
import { studentT4 } from '../numeric/student-t.ts';
import type { RideLog } from '../ride-log/ride-log.ts';

const OUTLIER_DENSITY = 0.02;
/** Freewheeling and soft-pedalling lift the log ratio by anything up to this, each lift as likely as another. */
const FREE_REACH = 1.2;

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
    const free = freeShare(log.powerW[record], trace.driving[record]);
    const peak = studentT4(z, sd);
    const foot = z > -20 ? 1 / (1 + Math.exp(-1.7 * z)) : 0;
    const above = foot / FREE_REACH;
    return independence * Math.log((1 - free) * peak + free * above + OUTLIER_DENSITY);
  };
}

/**
 * Chance that a second with the cranks turning was not driving: from its power, else from what the trace makes of the seconds around.
 * Assumption of ours.
 */
function freeShare(powerW: number, driving: number): number {
  if (Number.isNaN(powerW)) return 0.08 + 0.4 * (1 - driving);
  if (powerW < 10) return 0.9;
  return powerW < 40 ? 0.4 : 0.02;
}
