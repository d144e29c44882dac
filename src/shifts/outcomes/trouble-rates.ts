import { betaMidpoints } from '../../numeric/beta-distribution.ts';
import { logSumExp } from '../../numeric/log-sum-exp.ts';

/** What one shift's records say: how likely they are if it was clean, if it was clean as on a cog with slow shifts, and if it went wrong. */
export interface ShiftLikelihood {
  readonly cog: number;
  readonly clean: number;
  readonly slow: number;
  readonly trouble: number;
}

/** A rate that is known as a few values, each with a weight. */
interface RateGrid {
  readonly rates: readonly number[];
  readonly logWeights: readonly number[];
}

const POINTS = 10;

/** A mixture of Beta distributions, each as the midpoints of equal shares of it. */
function rateGrid(parts: readonly { readonly weight: number; readonly a: number; readonly b: number }[]): RateGrid {
  return {
    rates: parts.flatMap((beta) => betaMidpoints(beta, POINTS)),
    logWeights: parts.flatMap(({ weight }) => Array.from({ length: POINTS }, () => Math.log(weight / POINTS))),
  };
}

/**
 * What is known before the ride of the share of shifts in one direction that go wrong: most bikes are in order and hardly miss a
 * shift, some are out and may miss few or many. A cog goes like the others of its direction, or, seldom, has a trouble of its own.
 * Assumptions of ours.
 */
const DIRECTION = rateGrid([
  { weight: 0.65, a: 1, b: 120 },
  { weight: 0.35, a: 0.8, b: 3.2 },
]);
const OWN = rateGrid([{ weight: 1, a: 1, b: 1.5 }]);
const OWN_SHARE = 0.07;
/**
 * Power to which a shift's likelihoods are taken where they tell the rates: sensors err alike in a ride's shifts, so they tell less
 * together than each by itself (a tempered likelihood: Holmes and Walker 2017). An assumption of ours.
 */
const BELIEVED = 0.7;

/** Chance that the clean shifts onto a cog are slow. An assumption of ours. */
const SLOW_SHARE = 0.1;

/** Log likelihood of some shifts, as far as it is believed, at each rate of the direction's grid, and of the grid of a cog's own. */
interface LogFits {
  readonly direction: Float64Array;
  readonly own: Float64Array;
}

/** The same where clean shifts take as long as most, and where they are slow. */
interface PaceFits {
  readonly usual: LogFits;
  readonly slow: LogFits;
}

/** How a shift is expected to go. */
export interface ExpectedShift {
  /** Expected share of trouble. */
  readonly rate: number;
  /** Chance that clean shifts onto its cog are slow. */
  readonly slow: number;
}

/**
 * How each shift of one direction is expected to go, from the others: a hierarchical model of a rate for the direction and, for a cog with
 * a trouble of its own, one for the cog, both weighed over whole grids, and for each cog the pace of its clean shifts. Doubtful shifts
 * weigh by their likelihoods, not as parts of a miss, so that many doubts together make no fault (Gelman et al. 2013, ch. 5, for the model).
 *
 * @param shifts all shifts in one direction
 * @returns what is expected of each shift, the shift itself left out of it
 */
export function troubleRates(shifts: readonly ShiftLikelihood[]): ExpectedShift[] {
  const single = shifts.map(paceFits);
  const cogs = new Map<number, PaceFits>();
  shifts.forEach(({ cog }, i) => {
    const fits = cogs.get(cog);
    cogs.set(cog, fits ? added(fits, single[i], 1) : single[i]);
  });
  const marginals = new Map([...cogs].map(([cog, fits]) => [cog, cogMarginal(fits).log]));
  const all = Float64Array.from(DIRECTION.logWeights);
  for (const log of marginals.values()) add(all, log, 1);

  return shifts.map(({ cog }, i) => {
    const others = cogMarginal(added(cogs.get(cog) as PaceFits, single[i], -1));
    const posterior = add(Float64Array.from(all), marginals.get(cog) as Float64Array, -1);
    add(posterior, others.log, 1);
    const total = logSumExp(posterior);
    const mean = (values: Float64Array): number =>
      values.reduce((sum, value, g) => sum + Math.exp(posterior[g] - total) * value, 0);
    return { rate: mean(others.rate), slow: mean(others.slow) };
  });
}

const paceFits = ({ clean, slow, trouble }: ShiftLikelihood): PaceFits => ({
  usual: logFits(clean, trouble),
  slow: logFits(slow, trouble),
});

const logFits = (clean: number, trouble: number): LogFits => ({
  direction: logFit(DIRECTION, clean, trouble),
  own: logFit(OWN, clean, trouble),
});

function logFit(grid: RateGrid, clean: number, trouble: number): Float64Array {
  return Float64Array.from(grid.rates, (rate) => BELIEVED * Math.log((1 - rate) * clean + rate * trouble + 1e-300));
}

/** A cog's shifts, by the rate of their direction `[g]`. */
interface CogMarginal {
  /** Log likelihood of the shifts. */
  readonly log: Float64Array;
  /** Mean rate of the cog. */
  readonly rate: Float64Array;
  /** Chance that its clean shifts are slow. */
  readonly slow: Float64Array;
}

function cogMarginal({ usual, slow }: PaceFits): CogMarginal {
  const asUsual = rateMarginal(usual);
  const asSlow = rateMarginal(slow);
  const slowLog = asSlow.log.map((value) => Math.log(SLOW_SHARE) + value);
  const log = asUsual.log.map((value, g) => logSumExp([Math.log(1 - SLOW_SHARE) + value, slowLog[g]]));
  const slowChance = slowLog.map((value, g) => Math.exp(value - log[g]));
  const rate = slowChance.map((chance, g) => chance * asSlow.rate[g] + (1 - chance) * asUsual.rate[g]);
  return { log, rate, slow: slowChance };
}

/** The same with the pace known: the cog goes like its direction, or has a trouble of its own. */
function rateMarginal({ direction, own }: LogFits): Omit<CogMarginal, 'slow'> {
  const ownLogs = own.map((value, h) => value + OWN.logWeights[h]);
  const ownTotal = logSumExp(ownLogs);
  const ownRate = ownLogs.reduce((sum, value, h) => sum + Math.exp(value - ownTotal) * OWN.rates[h], 0);
  const log = direction.map((value) => logSumExp([Math.log(1 - OWN_SHARE) + value, Math.log(OWN_SHARE) + ownTotal]));
  const rate = direction.map((value, g) => {
    const likeDirection = Math.exp(Math.log(1 - OWN_SHARE) + value - log[g]);
    return likeDirection * DIRECTION.rates[g] + (1 - likeDirection) * ownRate;
  });
  return { log, rate };
}

const added = (to: PaceFits, values: PaceFits, times: number): PaceFits => ({
  usual: addedFits(to.usual, values.usual, times),
  slow: addedFits(to.slow, values.slow, times),
});

const addedFits = (to: LogFits, values: LogFits, times: number): LogFits => ({
  direction: add(Float64Array.from(to.direction), values.direction, times),
  own: add(Float64Array.from(to.own), values.own, times),
});

function add(to: Float64Array, values: Float64Array, times: number): Float64Array {
  for (let i = 0; i < to.length; i++) to[i] += times * values[i];
  return to;
}
