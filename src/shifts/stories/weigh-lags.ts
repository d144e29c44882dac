import { max } from 'd3-array';
import { logSumExp } from '../../numeric/log-sum-exp.ts';
import type { RideInQuestion } from '../ride-in-question.ts';
import type { RevolutionClock } from '../turns/revolution-clock.ts';
import type { ArrivalTable } from './arrival-table.ts';
import { revolutionsLikelihood, type ShiftTiming } from './shift-timing.ts';
import { usualDensity } from './turn-chances.ts';

/** Below 0 for recorders that write a gear change down with the record after it. */
const LAGS_S = Array.from({ length: 26 }, (_, i) => -1.25 + i * 0.25);
/** Such are rare: what a lag further below 0 than a record's own rounding costs, as log (assumption of ours). */
const AHEAD_S = -0.5;
const AHEAD_COST = 3;
/** How likely it is beforehand that a part of the lag grows with the time of a turn (assumption of ours). */
const GROWS = 0.25;
/**
 * How many turns of the cranks most of a ride's shifts may take, and how likely that is beforehand: a bike in order needs about half a
 * turn, one whose fault slows every shift up to two. So it looks too where a magnet that passes once a turn shows the turn before, or the mean of the
 * last two: then all are shown late alike, by turns that are the sensor's and not the chain's. Turns last longer at a low cadence and a steady lag does
 * not: that tells them apart.
 */
const USUAL_TURNS = [
  { turns: 0.6, lagTurns: 0, prior: 0.72 * (1 - GROWS) },
  { turns: 0.9, lagTurns: 0, prior: 0.14 * (1 - GROWS) },
  { turns: 1.3, lagTurns: 0, prior: 0.09 * (1 - GROWS) },
  { turns: 1.8, lagTurns: 0, prior: 0.05 * (1 - GROWS) },
  { turns: 0.6, lagTurns: 1, prior: 0.6 * GROWS },
  { turns: 0.6, lagTurns: 1.5, prior: 0.4 * GROWS },
].map(({ turns, lagTurns, prior }) => ({
  density: usualDensity(turns, lagTurns),
  lagTurns,
  logPrior: Math.log(prior),
}));
/** Power to which the shifts together, and what is held likely beforehand with them, are taken: sensors err alike in all shifts. */
const BELIEVED = 0.5;
/** What one shift costs at most that neither story explains. */
const UNEXPLAINED = 1e-3;

/** The lag as the shifts show it on the whole, and how well the best of all lags fits them. */
export interface WeighedLags extends Pick<ShiftTiming, 'steadyLagS' | 'lagTurns'> {
  readonly logFit: number;
}

/** Weighs every lag, whatever the shifts' usual turns. */
export function weighLags(
  tables: readonly ArrivalTable[],
  timing: Pick<ShiftTiming, 'riseWidthS' | 'jitterS'>,
  { trace, clock }: RideInQuestion,
): WeighedLags {
  // a cadence that is seen to average shows every shift late and smeared: that is no fault of the bike's
  const usual = trace.samples.rising.includes(1) ? USUAL_TURNS.slice(0, 1) : USUAL_TURNS;
  const scores = LAGS_S.map((steadyLagS) => {
    const fits = tables.map((table) => turnsFit(table, { ...timing, steadyLagS, lagTurns: 0 }, clock));
    const ahead = steadyLagS < AHEAD_S ? AHEAD_COST : 0;
    return usual.map(
      ({ density, logPrior }) =>
        BELIEVED * (logPrior + fits.reduce((sum, fit) => sum + fitScore(fit, density), 0)) - ahead,
    );
  });
  const total = logSumExp(scores.flat());
  const mean = (value: (lag: number, reading: number) => number): number =>
    scores.reduce((sum, row, l) => sum + row.reduce((part, s, u) => part + Math.exp(s - total) * value(l, u), 0), 0);
  return {
    steadyLagS: mean((l) => LAGS_S[l]),
    lagTurns: mean((_, u) => usual[u].lagTurns),
    logFit: max(scores, (row) => logSumExp(row)) as number,
  };
}

/** Likelihood of a shift's records for each number of turns, against the best story's. */
interface TurnsFit {
  readonly top: number;
  readonly likelihood: Float64Array;
}

function turnsFit(table: ArrivalTable, timing: Omit<ShiftTiming, 'lagS'>, clock: RevolutionClock): TurnsFit {
  const row = table.stories[0].byArrival;
  const top = Math.max(table.stay, ...row);
  return { top, likelihood: revolutionsLikelihood(row, table, timing, clock).map((value) => Math.exp(value - top)) };
}

function fitScore({ top, likelihood }: TurnsFit, density: Float64Array): number {
  let sum = UNEXPLAINED;
  for (let k = 0; k < likelihood.length; k++) sum += density[k] * likelihood[k];
  return top + Math.log(sum);
}
