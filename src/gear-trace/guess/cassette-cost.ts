import { COGS } from '../../drivetrain/tooth-limits.ts';

/** Cogs that a guess reckons with, in teeth. */
export const GUESSED_COGS = { least: 9, most: 52 } as const;

/** How close the cogs of a cassette stand, as the log of one cog over the next smaller one: close, middling and wide ones (from memory, no source). */
const SPACINGS = [
  { mean: 0.085, deviation: 0.03 },
  { mean: 0.115, deviation: 0.03 },
  { mean: 0.145, deviation: 0.028 },
];
/** Share of steps that keep to no spacing. */
const ODD_STEPS = 0.02;
/** No cog is larger than so many times the next smaller one. */
const LARGEST_STEP = 1.4;

/** How unusual the smallest cog of a cassette is, in nats (an assumption of ours). */
const SMALLEST: Readonly<Record<number, number>> = {
  9: 3,
  10: 1.2,
  11: 0.6,
  12: 1.8,
  13: 2.8,
  14: 3.2,
  15: 5,
  16: 5.5,
};
/** The same of any other. */
const ODD_SMALLEST = 8;
/** A cog that is made up is so many times its neighbour. */
const MADE_UP_STEP = 1.14;

/** What a cog costs that was not ridden, in nats: smaller than all that were, or between two that were (assumptions of ours). */
const NOT_RIDDEN = { smaller: 0.5, between: 2.2 };

/** Length of a table by tooth count. */
export const SIZES = GUESSED_COGS.most + 1;

interface Filling {
  /** Cost of going from cog `a` to cog `b` and the cog before `b` on the way, at `a * SIZES + b`. */
  readonly cost: Float64Array;
  readonly before: Uint8Array;
}

interface SpacingTable {
  readonly between: Filling;
  /** Cost of a cassette whose smallest ridden cog is this, with the smaller ones it must have. */
  readonly from: Float64Array;
}

const tables: readonly SpacingTable[] = SPACINGS.map((spacing) => {
  const steps = stepCosts(spacing);
  return { between: filling(steps, NOT_RIDDEN.between), from: fromSmallest(filling(steps, NOT_RIDDEN.smaller)) };
});

/** How unusual a set of ridden cogs is, in nats: lower is likelier. `cogs` rise. */
export const cassetteCost = (cogs: readonly number[]): number => likeliestSpacing(cogs).cost;

/** The ridden cogs with those that a cassette must have between them, and larger or smaller ones until it is one. */
export function completedCassette(cogs: readonly number[]): number[] {
  const { before } = likeliestSpacing(cogs).table.between;
  const all: number[] = [];
  for (let i = cogs.length - 1; i >= 0; i--) {
    all.unshift(cogs[i]);
    if (i > 0)
      for (let cog = before[cogs[i - 1] * SIZES + cogs[i]]; cog > cogs[i - 1]; cog = before[cogs[i - 1] * SIZES + cog])
        all.unshift(cog);
  }
  while (all.length < COGS.least) {
    const larger = Math.max(all[all.length - 1] + 1, Math.round(all[all.length - 1] * MADE_UP_STEP));
    if (larger <= GUESSED_COGS.most) all.push(larger);
    else all.unshift(Math.min(all[0] - 1, Math.round(all[0] / MADE_UP_STEP)));
  }
  return all;
}

function likeliestSpacing(cogs: readonly number[]): { cost: number; table: SpacingTable } {
  let best = { cost: Number.POSITIVE_INFINITY, table: tables[0] };
  for (const table of tables) {
    let cost = table.from[cogs[0]];
    for (let i = 1; i < cogs.length; i++) cost += table.between.cost[cogs[i - 1] * SIZES + cogs[i]];
    if (cost < best.cost) best = { cost, table };
  }
  return best;
}

/** Cost of each step from one cog to the next of a cassette of this spacing, over the whole tooth counts there are. */
function stepCosts({ mean, deviation }: (typeof SPACINGS)[number]): Float64Array {
  const costs = new Float64Array(SIZES * SIZES).fill(Number.POSITIVE_INFINITY);
  for (let a = GUESSED_COGS.least; a < SIZES; a++) {
    const chances: number[] = [];
    for (let b = a + 1; b <= LARGEST_STEP * a + 1; b++) {
      const off = (Math.log(b / a) - mean) / deviation;
      chances.push(((1 - ODD_STEPS) * Math.exp(-off * off * 0.5) + ODD_STEPS * Math.exp(-Math.abs(off) / 2)) / b);
    }
    const sum = chances.reduce((total, chance) => total + chance, 0);
    for (let b = a + 1; b < SIZES && b - a <= chances.length; b++)
      costs[a * SIZES + b] = -Math.log(chances[b - a - 1] / sum);
  }
  return costs;
}

/** The cheapest way from each cog to each larger one, over cogs that were not ridden and cost `each`. */
function filling(steps: Float64Array, each: number): Filling {
  const cost = steps.slice();
  const before = new Uint8Array(SIZES * SIZES);
  for (let a = GUESSED_COGS.least; a < SIZES; a++)
    for (let b = a + 1; b < SIZES; b++) {
      before[a * SIZES + b] = a;
      for (let last = a + 1; last < b; last++) {
        const over = cost[a * SIZES + last] + each + steps[last * SIZES + b];
        if (over >= cost[a * SIZES + b]) continue;
        cost[a * SIZES + b] = over;
        before[a * SIZES + b] = last;
      }
    }
  return { cost, before };
}

function fromSmallest(smaller: Filling): Float64Array {
  return Float64Array.from({ length: SIZES }, (_, cog) => {
    let least = SMALLEST[cog] ?? ODD_SMALLEST;
    for (const [smallest, unusual] of Object.entries(SMALLEST))
      if (Number(smallest) < cog)
        least = Math.min(least, unusual + NOT_RIDDEN.smaller + smaller.cost[Number(smallest) * SIZES + cog]);
    return least;
  });
}
