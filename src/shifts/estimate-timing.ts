import type { RideTrace } from '../gear-trace/gear-trace.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { type ArrivalTable, arrivalTable, WINDOW_INDEPENDENCE } from './arrival-table.ts';
import type { CommandedShift } from './commanded-shifts.ts';
import type { RevolutionClock } from './revolution-clock.ts';
import { secondsEvidence } from './seconds-evidence.ts';
import { shiftContexts } from './shift-context.ts';
import { cleanDensity, lateDensity, revolutionsLikelihood, type ShiftTiming } from './shift-timing.ts';

const LAGS_S = Array.from({ length: 23 }, (_, i) => -0.5 + i * 0.25);
const WIDTHS_S = [0.2, 0.45, 0.9, 1.5];
const MAX_SHIFTS = 120;
/** Lag and width when a ride has too few shifts to tell (assumption: between the recorders seen, 1 s and 3 s). */
const USUAL = { lagS: 1, riseWidthS: 0.45 };
/** Jitter of whole-second and of exact gear records (assumption; devices seen give or take up to 1 s). */
const JITTER_S = { wholeSeconds: 0.25, exact: 0.16 };
const MIN_SHIFTS = 8;
/** While the lag is sought, a tenth of the shifts may be late. */
const LATE_SHARE = 0.1;
/** What one shift costs at most that neither story explains. */
const UNEXPLAINED = 1e-3;

/**
 * Finds the lag and the smearing at which the ride's shifts, taken together, look like shifts: most of them done within a turn
 * of the cranks, some late, a few not at all.
 */
export function estimateTiming(
  log: RideLog,
  trace: RideTrace,
  shifts: readonly CommandedShift[],
  clock: RevolutionClock,
): ShiftTiming {
  const jitterS = log.gearRecords.wholeSeconds ? JITTER_S.wholeSeconds : JITTER_S.exact;
  const clear = [...shifts.keys()].filter((j) => {
    const shift = shifts[j];
    return shift.quietS >= 4 && shift.untilS - shift.lastTimeS >= 5 && shift.pedalledS >= 4;
  });
  const every = Math.max(1, clear.length / MAX_SHIFTS);
  const chosen = Array.from({ length: Math.min(clear.length, MAX_SHIFTS) }, (_, i) => clear[Math.floor(i * every)]);
  let best: { timing: ShiftTiming; score: number } | null = null;
  const evidence = secondsEvidence(log, trace, WINDOW_INDEPENDENCE);
  for (const riseWidthS of WIDTHS_S) {
    const tables = chosen
      .map((j) => {
        const [context] = shiftContexts(log, trace, shifts, j, USUAL.lagS, clock);
        return arrivalTable(
          log,
          trace,
          evidence,
          shifts[j],
          { ...context, before: null, after: null },
          riseWidthS,
          clock,
        );
      })
      .filter((table) => table.seen >= 3 && table.context.startCog === table.shift.fromCog);
    if (tables.length < MIN_SHIFTS) break;
    for (const lagS of LAGS_S) {
      const timing = { lagS, riseWidthS, jitterS };
      let score = 0;
      for (const table of tables) score += shiftScore(table, timing, clock);
      if (!best || score > best.score) best = { timing, score };
    }
  }
  return best?.timing ?? { ...USUAL, jitterS };
}

function shiftScore(table: ArrivalTable, timing: ShiftTiming, clock: RevolutionClock): number {
  const row = table.rows.get(table.shift.toCog) as Float64Array;
  const revs = revolutionsLikelihood(row, table, timing, clock);
  const top = Math.max(table.stay, ...row);
  let sum = UNEXPLAINED;
  for (let k = 0; k < revs.length; k++) {
    const prior = (1 - LATE_SHARE) * cleanDensity[k] + LATE_SHARE * lateDensity[k];
    if (prior > 0) sum += prior * Math.exp(revs[k] - top);
  }
  return top + Math.log(sum);
}
