import { max } from 'd3-array';
import { logSumExp } from '../../numeric/log-sum-exp.ts';
import type { CommandedShift } from '../commands/commanded-shifts.ts';
import type { RideInQuestion } from '../ride-in-question.ts';
import type { RevolutionClock } from '../turns/revolution-clock.ts';
import { type ArrivalTable, arrivalTable } from './arrival-table.ts';
import { shiftContexts } from './shift-context.ts';
import { revolutionsLikelihood, type ShiftTiming } from './shift-timing.ts';
import { usualDensity } from './turn-chances.ts';

/** Below 0 for recorders that write a gear change down with the record after it. */
const LAGS_S = Array.from({ length: 26 }, (_, i) => -1.25 + i * 0.25);
/** Such are rare: what a lag further below 0 than a record's own rounding costs, as log (assumption of ours). */
const AHEAD_S = -0.5;
const AHEAD_COST = 3;
const WIDTHS_S = [0.2, 0.45, 0.9, 1.5];
const MAX_SHIFTS = 120;
/** Lag and width when a ride has too few shifts to tell (assumption: between the recorders seen, 1 s and 3 s). */
const USUAL = { lagS: 1, riseWidthS: 0.45 };
/** Jitter of whole-second and of exact gear records (assumption; devices seen give or take up to 1 s). */
const JITTER_S = { wholeSeconds: 0.25, exact: 0.16 };
/** The chain's start is looked up as though sensors were not late at all: later, a sensor that is not late shows the new cog already. */
const NO_LAG_S = 0;
const MIN_SHIFTS = 8;
/**
 * How many turns of the cranks most of a ride's shifts may take, and how likely that is beforehand: a bike in order needs about half a
 * turn, one whose fault slows every shift up to two. Turns last longer at a low cadence and a lag does not: that tells them apart.
 */
const USUAL_TURNS = [
  { turns: 0.6, prior: 0.72 },
  { turns: 0.9, prior: 0.14 },
  { turns: 1.3, prior: 0.09 },
  { turns: 1.8, prior: 0.05 },
].map(({ turns, prior }) => ({ density: usualDensity(turns), logPrior: Math.log(prior) }));
/** Power to which the shifts together, and what is held likely beforehand with them, are taken: sensors err alike in all shifts. */
const BELIEVED = 0.5;
/** What one shift costs at most that neither story explains. */
const UNEXPLAINED = 1e-3;

/**
 * Finds the lag and the smearing at which the ride's shifts, taken together, look like shifts: most of them done within a turn
 * of the cranks, some late, a few not at all.
 */
export function estimateTiming(ride: RideInQuestion, shifts: readonly CommandedShift[]): ShiftTiming {
  const jitterS = ride.log.gearRecords.wholeSeconds ? JITTER_S.wholeSeconds : JITTER_S.exact;
  const clear = [...shifts.keys()].filter((j) => {
    const shift = shifts[j];
    return shift.quietS >= 4 && shift.untilS - shift.lastTimeS >= 5 && shift.pedalledS >= 4;
  });
  const every = Math.max(1, clear.length / MAX_SHIFTS);
  const chosen = Array.from({ length: Math.min(clear.length, MAX_SHIFTS) }, (_, i) => clear[Math.floor(i * every)]);
  const readings: { riseWidthS: number; scores: Float64Array }[] = [];
  for (const riseWidthS of WIDTHS_S) {
    const tables = chosen
      .map((j) => {
        const [context] = shiftContexts(ride, shifts, j, NO_LAG_S);
        return arrivalTable(ride, shifts[j], { ...context, before: null, after: null }, riseWidthS);
      })
      .filter(tellsTiming);
    if (tables.length < MIN_SHIFTS) return { ...USUAL, jitterS };
    readings.push({ riseWidthS, scores: lagScores(tables, { riseWidthS, jitterS }, ride) });
  }
  const best = readings.reduce((a, b) => ((max(b.scores) as number) > (max(a.scores) as number) ? b : a));
  return { lagS: meanLag(best.scores), riseWidthS: best.riseWidthS, jitterS };
}

/** Whether a shift tells how late the sensors are: the chain was where it was thought to be, and went to the cog asked for. */
function tellsTiming({ stories: [straight], shift, context, stay, seen }: ArrivalTable): boolean {
  return seen >= 3 && context.startCog === shift.fromCog && (max(straight.byArrival) as number) > stay;
}

/** How well the shifts fit each lag, whatever their usual turns. */
function lagScores(
  tables: readonly ArrivalTable[],
  timing: Omit<ShiftTiming, 'lagS'>,
  { trace, clock }: RideInQuestion,
): Float64Array {
  // a cadence that is seen to average shows every shift late and smeared: that is no fault of the bike's
  const usual = trace.samples.rising.includes(1) ? USUAL_TURNS.slice(0, 1) : USUAL_TURNS;
  return Float64Array.from(LAGS_S, (lagS) => {
    const fits = tables.map((table) => turnsFit(table, { ...timing, lagS }, clock));
    const ahead = lagS < AHEAD_S ? AHEAD_COST : 0;
    return logSumExp(
      usual.map(
        ({ density, logPrior }) =>
          BELIEVED * (logPrior + fits.reduce((sum, fit) => sum + fitScore(fit, density), 0)) - ahead,
      ),
    );
  });
}

/** Mean of the lags, weighed by their scores. */
function meanLag(scores: Float64Array): number {
  const top = max(scores) as number;
  let sum = 0;
  let weights = 0;
  scores.forEach((score, i) => {
    const weight = Math.exp(score - top);
    sum += weight * LAGS_S[i];
    weights += weight;
  });
  return sum / weights;
}

/** Likelihood of a shift's records for each number of turns, against the best story's. */
interface TurnsFit {
  readonly top: number;
  readonly likelihood: Float64Array;
}

function turnsFit(table: ArrivalTable, timing: ShiftTiming, clock: RevolutionClock): TurnsFit {
  const row = table.stories[0].byArrival;
  const top = Math.max(table.stay, ...row);
  return { top, likelihood: revolutionsLikelihood(row, table, timing, clock).map((value) => Math.exp(value - top)) };
}

function fitScore({ top, likelihood }: TurnsFit, density: Float64Array): number {
  let sum = UNEXPLAINED;
  for (let k = 0; k < likelihood.length; k++) sum += density[k] * likelihood[k];
  return top + Math.log(sum);
}
