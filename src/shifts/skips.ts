import { median } from 'd3-array';
import type { RideTrace } from '../gear-trace/gear-trace.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { crankTorque } from './crank-torque.ts';
import { firstAfter } from './first-after.ts';
import type { SkipEvent } from './ride-events.ts';

/** Commands this long before the dip, the sensors' lag apart, may explain it. */
const QUIET_BEFORE_S = 5;
/** Where no command is near, a smaller dip will do than where the rider shifts right after it. */
const QUIET_AFTER_S = 3;
const MIN_DIP = { quiet: 0.06, busy: 0.12 } as const;
const MIN_DEVIATIONS = 6;
/** Within this many deviations of the cog's development the chain drives there. */
const ON_COG_DEVIATIONS = 3;
/** A slip lasts under 2 s; sensors smear it into the records beside it. */
const MAX_RECORDS = 3;
const STEADY_RECORDS = 4;
const STEADY_AT_LEAST = 3;
const BACK_WITHIN_RECORDS = 2;
/** The wheel keeps its speed while the chain slips; a speed that sags and returns is the sensor's slip. */
const MAX_SAG = 0.03;
/** The legs run ahead by at least this part of the dip. */
const LEAST_LEGS = 0.5;
/** Torque beyond easy riding, Nm (assumption of ours). */
const HARD_NM = 30;
/** Without gear records and without a hard push: so short and so deep a dip is no shift there and back, and no reading gone wrong. */
const CLEAR = { records: 2, dip: 0.15, deviations: 9 } as const;
/** A dip no deeper than the step to the next larger cog, by this many deviations, may be a hop there and back. */
const HOP_DEVIATIONS = 2.5;

/**
 * Finds skips: in settled driving, with no command to explain it, the cranks run ahead of the wheel for under 2 s (the ratio dips
 * below the cog's development, which freewheeling never does), and the same cog drives on. Riders often answer by shifting. A dip that
 * a hop to the next larger cog could have made counts only under more than the ride's usual load.
 */
export function skips(log: RideLog, trace: RideTrace, sensorLagS: number): SkipEvent[] {
  const { model, commands } = trace;
  if (!model) return [];
  const found: SkipEvent[] = [];
  const usualNm = median(usualTorques(log)) ?? Number.NaN;
  for (let start = STEADY_RECORDS; start + 1 < log.timeS.length; start++) {
    const cog = trace.cog[start - 1];
    const ring = trace.ring[start - 1];
    if (cog < 0 || ring < 0) continue;
    const level = model.logDevelopment[ring * model.cogs + cog];
    const dip = (i: number): number => level - trace.logDevelopment[i];
    const onCog = (i: number): boolean => Math.abs(dip(i)) < ON_COG_DEVIATIONS * trace.deviation[i];
    if (!(dip(start) > ON_COG_DEVIATIONS * trace.deviation[start]) || !onCog(start - 1)) continue;
    let end = start;
    let deepest = start;
    while (
      end <= start + MAX_RECORDS &&
      end < log.timeS.length &&
      dip(end) > ON_COG_DEVIATIONS * trace.deviation[end]
    ) {
      if (dip(end) > dip(deepest)) deepest = end;
      end++;
    }
    const event = weigh(start, deepest, end, cog, dip, onCog);
    if (!event) continue;
    found.push(event);
    start = end;
  }
  return found;

  function weigh(
    start: number,
    deepest: number,
    end: number,
    cog: number,
    dip: (i: number) => number,
    onCog: (i: number) => boolean,
  ): SkipEvent | null {
    const atS = log.timeS[start];
    const lagS = Math.max(0, sensorLagS);
    const last = firstAfter(commands.timeS, atS - Math.max(0, lagS - 1)) - 1;
    if (atS - (commands.timeS[last] ?? Number.NEGATIVE_INFINITY) < QUIET_BEFORE_S + lagS) return null;
    const quiet = (commands.timeS[last + 1] ?? Number.POSITIVE_INFINITY) - atS >= QUIET_AFTER_S;
    const depth = dip(deepest);
    const z = depth / trace.deviation[deepest];
    if (!(depth > (quiet ? MIN_DIP.quiet : MIN_DIP.busy)) || !(z > MIN_DEVIATIONS)) return null;
    if (end - start > MAX_RECORDS || end >= log.timeS.length) return null;
    let steady = 0;
    for (let k = 1; k <= STEADY_RECORDS; k++) if (trace.cog[start - k] === cog && onCog(start - k)) steady++;
    let back = false;
    for (let k = end; k < end + BACK_WITHIN_RECORDS && k < log.timeS.length; k++) back ||= onCog(k);
    if (steady < STEADY_AT_LEAST || !back) return null;
    const around = (log.speedMps[start - 1] + log.speedMps[end]) / 2;
    const legs = Math.log(log.cadenceRpm[deepest] / Math.max(log.cadenceRpm[start - 1], log.cadenceRpm[end]));
    if (end - start > 1 && restsOnCog(start, end)) return null;
    if (Math.log(log.speedMps[deepest] / around) < -MAX_SAG || legs < LEAST_LEGS * depth) return null;
    const torqueNm = crankTorque(log, start - 2, end + 1);
    // without gear records a quick shift there and back looks much the same
    const clear = end - start <= CLEAR.records && depth > CLEAR.dip && z > CLEAR.deviations;
    if (commands.timeS.length === 0 && !(torqueNm > HARD_NM) && !clear) return null;
    if (depth < stepToLarger(start, cog) + HOP_DEVIATIONS * trace.deviation[deepest] && !(torqueNm > usualNm))
      return null;
    return { timeS: Math.max(0, atS - lagS), cog, confidence: 1 - Math.exp(-z / 6), torqueNm };
  }

  /** Log step of the ratio to the next larger cog; -Infinity from the largest. */
  function stepToLarger(record: number, cog: number): number {
    const { logDevelopment, cogs } = model as NonNullable<typeof model>;
    if (cog + 1 >= cogs) return Number.NEGATIVE_INFINITY;
    const gear = trace.ring[record - 1] * cogs + cog;
    return logDevelopment[gear] - logDevelopment[gear + 1];
  }

  /** Whether all records of a run but one drive on one cog: then the chain went there and came back. */
  function restsOnCog(start: number, end: number): boolean {
    const { logDevelopment } = model as NonNullable<typeof model>;
    return logDevelopment.some((level) => {
      let on = 0;
      for (let i = start; i < end; i++)
        if (Math.abs(trace.logDevelopment[i] - level) < ON_COG_DEVIATIONS * trace.deviation[i]) on++;
      return on >= Math.max(1, end - start - 1);
    });
  }
}

/** Torque of every record under way, Nm. */
function usualTorques(log: RideLog): Float64Array {
  return Float64Array.from(log.timeS, (_, i) => crankTorque(log, i, i + 1)).filter((torqueNm) => torqueNm > 0);
}
