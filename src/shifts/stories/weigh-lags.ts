import { max, sum } from 'd3-array';
import { logSumExp } from '../../numeric/log-sum-exp.ts';
import type { RideInQuestion } from '../ride-in-question.ts';
import type { RevolutionClock } from '../turns/revolution-clock.ts';
import type { ArrivalTable } from './arrival-table.ts';
import { revolutionsLikelihood, type ShiftTiming } from './shift-timing.ts';
import { usualDensity } from './turn-chances.ts';

/**
 * Below 0 for recorders that write a gear change down with the record after it: half a second late on the mean, of which sensors take back a
 * quarter at least (assumption of ours). An earlier lag would mostly be slow shifts in disguise: the two trade off.
 */
const EARLIEST_S = -0.25;
const LAG_STEP_S = 0.25;
const LAGS_S = Array.from({ length: 22 }, (_, i) => EARLIEST_S + i * LAG_STEP_S);
/**
 * Lags of the recorders seen, mean and standard deviation in s (from 0.1 s to 3 s; an assumption of ours): what a ride goes by that has few shifts to
 * tell its own. Changes written down before they came are rare.
 */
const USUAL_LAG = { meanS: 1.3, spreadS: 1 };
/**
 * How many turns of the cranks most of a ride's shifts may take, and how likely that is beforehand: a bike in order needs about half a
 * turn, one whose fault slows every shift up to two.
 */
const USUAL_TURNS = [
  { turns: 0.6, prior: 0.72 },
  { turns: 0.9, prior: 0.14 },
  { turns: 1.3, prior: 0.09 },
  { turns: 1.8, prior: 0.05 },
];
/**
 * A magnet that passes once a turn shows the turn before, or the mean of the last two: then all shifts are shown late alike, by turns that are the
 * sensor's and not the chain's. Turns last longer at a low cadence and a steady lag does not: that tells them apart. How many turns, and how likely
 * that is beforehand with such a magnet (assumption of ours: heads hide or foretell a part of it).
 */
const MAGNET_TURNS = [
  { lagTurns: 0, prior: 0.25 },
  { lagTurns: 0.5, prior: 0.3 },
  { lagTurns: 1, prior: 0.25 },
  { lagTurns: 1.5, prior: 0.2 },
];
const READINGS = MAGNET_TURNS.map(({ lagTurns, prior: ofMagnet }) => ({
  densities: USUAL_TURNS.map(({ turns }) => usualDensity(turns, lagTurns)),
  lagTurns,
  ofMagnet,
}));
/**
 * How likely it is that both directions take turns alike, as where nothing or the pulley gap slows them; else each takes its own, as where
 * the cable pulls the pulley to one side. An assumption of ours.
 */
const ALIKE = 0.5;
/** Every pair of usual turns, those to larger cogs and those to smaller, with how likely it is beforehand. */
const USUAL_PAIRS = USUAL_TURNS.flatMap((larger, l) =>
  USUAL_TURNS.map((smaller, s) => ({
    larger: l,
    smaller: s,
    logPrior: Math.log((l === s ? ALIKE * larger.prior : 0) + (1 - ALIKE) * larger.prior * smaller.prior),
  })),
);
/** Power to which the shifts together, and what is held likely beforehand with them, are taken: sensors err alike in all shifts. */
const BELIEVED = 0.5;
/** What one shift costs at most that neither story explains. */
const UNEXPLAINED = 1e-3;

/** The lag as the shifts show it on the whole, and how well the best of all lags fits them. */
export interface WeighedLags extends Pick<ShiftTiming, 'steadyLagS' | 'lagTurns'> {
  readonly logFit: number;
  /** How far the lag may be from that, standard deviation, s. */
  readonly lagSpreadS: number;
}

/**
 * Weighs every lag, whatever the shifts' usual turns, to larger cogs and to smaller: where one direction is slow, the other tells the lag.
 *
 * @param magnet how likely the cadence comes from a magnet that passes once a turn
 * @param turnS how long a turn of the cranks usually takes, s
 */
export function weighLags(
  tables: readonly ArrivalTable[],
  timing: Pick<ShiftTiming, 'riseWidthS' | 'jitterS'>,
  { trace, clock }: RideInQuestion,
  magnet: number,
  turnS: number,
): WeighedLags {
  // a cadence that is seen to average shows every shift late and smeared: that is no fault of the bike's
  const averages = trace.samples.rising.includes(1);
  const usual = USUAL_PAIRS.slice(0, averages ? 1 : USUAL_PAIRS.length);
  const readings = READINGS.slice(0, averages ? 1 : READINGS.length).map((reading) => ({
    ...reading,
    logKind: Math.log(magnet * reading.ofMagnet + (reading.lagTurns === 0 ? 1 - magnet : 0)),
  }));
  const scores = LAGS_S.map((steadyLagS) => {
    const fits = { 'to-larger': [] as TurnsFit[], 'to-smaller': [] as TurnsFit[] };
    for (const table of tables)
      fits[table.shift.direction].push(turnsFit(table, { ...timing, steadyLagS, lagTurns: 0 }, clock));
    const logLag = -0.5 * ((steadyLagS - USUAL_LAG.meanS) / USUAL_LAG.spreadS) ** 2;
    return readings.map(({ densities, logKind }) => {
      const larger = densities.map((density) => sum(fits['to-larger'], (fit) => fitScore(fit, density)));
      const smaller = densities.map((density) => sum(fits['to-smaller'], (fit) => fitScore(fit, density)));
      const pairs = usual.map((pair) => pair.logPrior + larger[pair.larger] + smaller[pair.smaller]);
      return logSumExp(pairs.map((pair) => BELIEVED * pair)) + logKind + logLag;
    });
  });
  const total = logSumExp(scores.flat());
  const mean = (value: (lag: number, reading: number) => number): number =>
    scores.reduce((sum, row, l) => sum + row.reduce((part, s, u) => part + Math.exp(s - total) * value(l, u), 0), 0);
  const lagS = (l: number, u: number): number => LAGS_S[l] + readings[u].lagTurns * turnS;
  const meanLagS = mean(lagS);
  return {
    steadyLagS: mean((l) => LAGS_S[l]),
    lagTurns: mean((_, u) => readings[u].lagTurns),
    logFit: max(scores, (row) => logSumExp(row)) as number,
    lagSpreadS: Math.sqrt(mean((l, u) => (lagS(l, u) - meanLagS) ** 2)),
  };
}

/** Likelihood of a shift's records for each number of turns, against the best story's. */
interface TurnsFit {
  readonly top: number;
  readonly likelihood: Float64Array;
}

type LagTried = Pick<ShiftTiming, 'steadyLagS' | 'lagTurns' | 'jitterS'>;

function turnsFit(table: ArrivalTable, timing: LagTried, clock: RevolutionClock): TurnsFit {
  const row = table.stories[0].byArrival;
  const top = Math.max(table.stay, ...row);
  return { top, likelihood: revolutionsLikelihood(row, table, timing, clock).map((value) => Math.exp(value - top)) };
}

function fitScore({ top, likelihood }: TurnsFit, density: Float64Array): number {
  let fit = UNEXPLAINED;
  for (let k = 0; k < likelihood.length; k++) fit += density[k] * likelihood[k];
  return top + Math.log(fit);
}
