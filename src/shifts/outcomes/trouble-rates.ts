import { betaMidpoints } from '../../numeric/beta-distribution.ts';
import { logSumExp } from '../../numeric/log-sum-exp.ts';

/** What one shift's records say: how likely they are if it was clean and if it went wrong. */
export interface ShiftLikelihood {
  readonly cog: number;
  readonly clean: number;
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

/** Log likelihood of some shifts at each rate of the direction's grid, and of the grid of a cog's own. */
interface LogFits {
  readonly direction: Float64Array;
  readonly own: Float64Array;
}

/**
 * Expected share of trouble for each shift of one direction, from the others: a hierarchical model of a rate for the direction and,
 * for a cog with a trouble of its own, one for the cog, both weighed over whole grids. Doubtful shifts weigh by their likelihoods, not
 * as parts of a miss, so that many doubts together make no fault (Gelman et al. 2013, ch. 5, for the model).
 *
 * @param shifts all shifts in one direction
 * @returns one rate for each shift, the shift itself left out of it
 */
export function troubleRates(shifts: readonly ShiftLikelihood[]): Float64Array {
  const single = shifts.map(({ clean, trouble }) => ({
    direction: logFits(DIRECTION, clean, trouble),
    own: logFits(OWN, clean, trouble),
  }));
  const cogs = new Map<number, LogFits>();
  shifts.forEach(({ cog }, i) => {
    const fits = cogs.get(cog) ?? {
      direction: new Float64Array(DIRECTION.rates.length),
      own: new Float64Array(OWN.rates.length),
    };
    cogs.set(cog, fits);
    add(fits.direction, single[i].direction, 1);
    add(fits.own, single[i].own, 1);
  });
  const marginals = new Map([...cogs].map(([cog, fits]) => [cog, cogMarginal(fits).log]));
  const all = Float64Array.from(DIRECTION.logWeights);
  for (const log of marginals.values()) add(all, log, 1);

  return Float64Array.from(shifts, ({ cog }, i) => {
    const { direction, own } = cogs.get(cog) as LogFits;
    const others = cogMarginal({
      direction: add(Float64Array.from(direction), single[i].direction, -1),
      own: add(Float64Array.from(own), single[i].own, -1),
    });
    const posterior = add(Float64Array.from(all), marginals.get(cog) as Float64Array, -1);
    add(posterior, others.log, 1);
    const total = logSumExp(posterior);
    return posterior.reduce(
      (rate, value, g) =>
        rate +
        Math.exp(value - total) *
          (others.likeDirection[g] * DIRECTION.rates[g] + (1 - others.likeDirection[g]) * others.ownRate),
      0,
    );
  });
}

function logFits(grid: RateGrid, clean: number, trouble: number): Float64Array {
  return Float64Array.from(grid.rates, (rate) => Math.log((1 - rate) * clean + rate * trouble + 1e-300));
}

/** Log likelihood of a cog's shifts at each rate of its direction; the chance that it goes like the direction; its mean rate if not. */
function cogMarginal({ direction, own }: LogFits): { log: Float64Array; likeDirection: Float64Array; ownRate: number } {
  const ownLogs = own.map((value, h) => value + OWN.logWeights[h]);
  const ownTotal = logSumExp(ownLogs);
  const log = direction.map((value) => logSumExp([Math.log(1 - OWN_SHARE) + value, Math.log(OWN_SHARE) + ownTotal]));
  return {
    log,
    likeDirection: direction.map((value, g) => Math.exp(Math.log(1 - OWN_SHARE) + value - log[g])),
    ownRate: ownLogs.reduce((sum, value, h) => sum + Math.exp(value - ownTotal) * OWN.rates[h], 0),
  };
}

function add(to: Float64Array, values: Float64Array, times: number): Float64Array {
  for (let i = 0; i < to.length; i++) to[i] += times * values[i];
  return to;
}
