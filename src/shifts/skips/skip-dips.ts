import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { crankTorque } from '../crank-torque.ts';
import { below, type DipRun, type DipSearch, dipRun, MIN_DEVIATIONS, MIN_DIP, STEADY_RECORDS } from './dip-runs.ts';

/** The wheel keeps its speed while the chain slips; where it sags and returns, the legs alone must have leapt clear of the noise. */
const MAX_SAG = 0.03;
/** The legs run ahead by at least this part of the dip. */
const LEAST_LEGS = 0.5;

/** Legs whose pace is twice that of a record beside the dip, within so much of the logarithm, were counted twice by the sensor. */
const DOUBLED_WITHIN = 0.07;

/** A run of records in which the legs run ahead of the wheel, and no command explains it. */
export interface SkipDip {
  readonly start: number;
  /** End exclusive. */
  readonly end: number;
  readonly deepest: number;
  readonly cog: number;
  /** How far the deepest record lies below the cog's log development. */
  readonly depth: number;
  /** Standard deviation of that record. */
  readonly deviation: number;
  /** Log step to the next larger cog; null from the largest. */
  readonly toLarger: number | null;
  /** Mean torque about the dip, Nm; NaN without power. */
  readonly torqueNm: number;
  /** Whether a command may still be at work about the dip. */
  readonly besideShift: boolean;
  /** Whether the power sagged with it, away from shifts. */
  readonly unloaded: boolean;
}

/**
 * Finds where the ratio dips below the development of the cog that the chain drives on, which freewheeling never makes it do, for under
 * 2 s, while the legs run ahead, and the chain drives on.
 */
export function skipDips(log: RideLog, trace: RideTrace, lagS: number): SkipDip[] {
  const { model } = trace;
  if (!model) return [];
  const search = { log, trace, model, lagS };
  const found: SkipDip[] = [];
  for (let start = STEADY_RECORDS; start + 1 < log.timeS.length; start++) {
    const run = dipRun(search, start);
    if (!run || !legsRunAhead(search, run)) continue;
    found.push(measured(search, run));
    start = run.end;
  }
  return found;
}

/**
 * Whether the legs made a dip, and not a wheel that seemed to slow down for a moment, nor a sensor that counted them twice while they trailed
 * the wheel, which leaves a dip that is less deep.
 */
function legsRunAhead(search: DipSearch, { start, deepest, end, gear }: DipRun): boolean {
  const { speedMps, cadenceRpm } = search.log;
  const sag = Math.log((2 * speedMps[deepest]) / (speedMps[start - 1] + speedMps[end]));
  const against = (beside: number): number => Math.log(cadenceRpm[deepest] / cadenceRpm[beside]);
  const legs = Math.min(against(start - 1), against(end));
  if ([start - 1, end].some((beside) => Math.abs(against(beside) - Math.LN2) < DOUBLED_WITHIN)) return false;
  const leap = Math.max(MIN_DIP.busy, MIN_DEVIATIONS.clear * search.trace.deviation[deepest]);
  return legs >= LEAST_LEGS * below(search, gear, deepest) && (sag >= -MAX_SAG || legs > leap);
}

function measured(search: DipSearch, { start, end, deepest, gear, besideShift, unloaded }: DipRun): SkipDip {
  const { log, trace, model } = search;
  const cog = gear % model.cogs;
  const toLarger = cog + 1 < model.cogs ? model.logDevelopment[gear] - model.logDevelopment[gear + 1] : null;
  return {
    start,
    end,
    deepest,
    cog,
    depth: below(search, gear, deepest),
    deviation: trace.deviation[deepest],
    toLarger,
    torqueNm: crankTorque(log, start - 2, end + 1),
    besideShift,
    unloaded,
  };
}
