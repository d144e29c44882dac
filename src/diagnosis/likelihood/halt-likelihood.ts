import { logSumExp } from '../../numeric/log-sum-exp.ts';
import { meantShares } from '../../shifts/drops/halt-odds.ts';
import type { EndCog } from '../../shifts/ride-events.ts';
import type { EvidenceSegment } from '../evidence/evidence-table.ts';

/** The ends in the order of a segment's columns. */
const ends = ['largest', 'smallest'] as const satisfies readonly EndCog[];

/**
 * Lost chains that stop the rider at once, for each that shows by the legs: some riders pedal on, others stop within a turn (assumptions of ours,
 * each as likely as the next).
 */
const STOPPED_FOR_EACH_SHOWN = [0.2, 0.8, 3];
/** The most of the shifts onto an end cog that can lose the chain. */
const MOST_LOST = 0.9;
/** Rates of lost chains for which the likelihood is worked out beforehand, evenly in the logarithm; between them it is drawn straight. */
const LEAST_RATE = 1e-5;
const STEPS = 32;
const STEP = Math.log(1 / LEAST_RATE) / (STEPS - 1);

/** For each end, the log likelihood of a segment's prompt halts at each of the rates; null where no shift went there. */
export type PreparedHalts = readonly (Float64Array | null)[];

/**
 * Prepares the prompt halts of segments. What share of the shifts a rider halts after on purpose is told by the bike's rides all together;
 * the halts onto an end cog are then more than that or are not.
 */
export function prepareHalts(segments: readonly EvidenceSegment[]): PreparedHalts[] {
  const total = (column: 'otherShifts' | 'otherHalts', end: number): number =>
    segments.reduce((sum, segment) => sum + segment[column][end], 0);
  const meant = ends.map((name, end) =>
    segments.some(({ endShifts }) => endShifts[end] > 0)
      ? meantShares(name, { shifts: total('otherShifts', end), halts: total('otherHalts', end) })
      : [],
  );
  return segments.map(({ endShifts, endHalts }) =>
    ends.map((_, end) => {
      if (endShifts[end] === 0) return null;
      const shown = { shifts: endShifts[end], haltLogOdds: endHalts[end] };
      return Float64Array.from({ length: STEPS }, (_, i) =>
        logLikelihood(LEAST_RATE * Math.exp(i * STEP), shown, meant[end]),
      );
    }),
  );
}

/** Shifts onto an end cog, and of those that a prompt halt followed the log odds of all else that it shows. */
interface ShiftsOntoEnd {
  readonly shifts: number;
  readonly haltLogOdds: readonly number[];
}

function logLikelihood(rate: number, { shifts, haltLogOdds }: ShiftsOntoEnd, meantShares: readonly number[]): number {
  const without = shifts - haltLogOdds.length;
  const logs: number[] = [];
  for (const stopped of STOPPED_FOR_EACH_SHOWN) {
    const lost = Math.min(MOST_LOST, stopped * rate);
    for (const meant of meantShares) {
      let log = without * Math.log((1 - lost) * (1 - meant));
      // what speaks for a lost chain in one halt is weighed where a single one is told: here only what speaks against it
      for (const logOdds of haltLogOdds) log += Math.log(lost * Math.exp(Math.min(0, logOdds)) + (1 - lost) * meant);
      logs.push(log);
    }
  }
  return logSumExp(logs) - Math.log(logs.length);
}

/** Log likelihood of prompt halts, constant terms left out. `dropRates`: share of the shifts onto the largest and onto the smallest cog that lose the chain. */
export function haltLogLikelihood(prepared: PreparedHalts, dropRates: ArrayLike<number>): number {
  let total = 0;
  prepared.forEach((table, end) => {
    if (!table) return;
    const place = Math.min(STEPS - 1, Math.max(0, Math.log(dropRates[end] / LEAST_RATE) / STEP));
    const below = Math.min(STEPS - 2, Math.floor(place));
    total += table[below] + (place - below) * (table[below + 1] - table[below]);
  });
  return total;
}
