import type { RevolutionClock } from '../turns/revolution-clock.ts';
import type { ArrivalTable } from './arrival-table.ts';
import { ARRIVAL_STEP_S, ARRIVALS, FIRST_ARRIVAL_S } from './shift-window.ts';
import { REV_STEP, REVS } from './turn-chances.ts';

/**
 * How a ride's sensors and recorder show a shift, and how its shifts usually go. Estimated from the ride itself.
 */
export interface ShiftTiming {
  /** Seconds from a gear record to the middle of the ratio's change when the chain moves at once, at the ride's usual cadence. */
  readonly lagS: number;
  /** The same less the part of it that grows with the time of a turn. */
  readonly steadyLagS: number;
  /** That part, in turns of the cranks: a magnet that passes once a turn shows what the turn before, or two of them, took. */
  readonly lagTurns: number;
  /** Smearing of the change by the sensors, standard deviation, s. */
  readonly riseWidthS: number;
  /**
   * How far single shifts are off the mean lag, standard deviation in s: recorders hold a value back by a varying part of a second,
   * whole-second gear records lose up to a second more; and how far the mean lag itself may be off.
   */
  readonly jitterS: number;
  /** The last part of it: how well the ride's shifts tell the lag, standard deviation, s. */
  readonly lagSpreadS: number;
}

/** Offsets from the mean lag that are averaged over, s. */
const OFFSETS_S = Array.from({ length: 21 }, (_, i) => -2.5 + i * 0.25);

/**
 * Log likelihood of a shift that takes each number of revolutions on the grid, to one final cog: its row, read at the moment
 * at which the sensors show them pedalled, averaged over the jitter. The ratio's step and the cranks' turns come from the same cadence,
 * so turns are counted from where the sensors show the command, the lag after it.
 *
 * @param row log likelihood by arrival, of one of the table's stories
 */
export function revolutionsLikelihood(
  row: Float64Array,
  table: ArrivalTable,
  timing: Pick<ShiftTiming, 'steadyLagS' | 'lagTurns' | 'jitterS'>,
  clock: RevolutionClock,
): Float64Array {
  const offsets = OFFSETS_S.map((s) => ({ s, weight: Math.exp(-((s / timing.jitterS) ** 2) / 2) })).filter(
    ({ weight }) => weight > 0.01,
  );
  const weights = offsets.reduce((sum, { weight }) => sum + weight, 0);
  const top = Math.max(table.stay, ...row);
  const stay = Math.exp(table.stay - top);
  const likelihood = row.map((value) => Math.exp(value - top));
  const timeS = table.shift.lastTimeS;
  const fromLeftS = clock.standing.left(timeS);
  return Float64Array.from({ length: REVS }, (_, k) => {
    const shownS =
      clock.standing.left(clock.after(timeS + timing.steadyLagS, timing.lagTurns + (k + 0.5) * REV_STEP)) - fromLeftS;
    let sum = 0;
    for (const { s, weight } of offsets) sum += weight * interpolate(likelihood, stay, shownS + s);
    return top + Math.log(sum / weights + 1e-300);
  });
}

/** Likelihood at an arrival time after the command; beyond the window it is that of staying. */
function interpolate(likelihood: Float64Array, stay: number, arrivalS: number): number {
  const position = (arrivalS - FIRST_ARRIVAL_S) / ARRIVAL_STEP_S;
  if (!(position < ARRIVALS - 1)) return stay;
  if (position <= 0) return likelihood[0];
  const k = Math.floor(position);
  return likelihood[k] + (position - k) * (likelihood[k + 1] - likelihood[k]);
}
