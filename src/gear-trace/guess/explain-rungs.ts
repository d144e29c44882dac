import type { Rung } from '../ladder/ladder-peaks.ts';
import { RiddenGears, riddenCogs } from './ridden-gears.ts';
import { type RungGear, rungGears } from './rung-gears.ts';

/** A ladder read as gears of some rings at some rollout. `cost` in nats: misfit and what is unusual; lower is likelier. */
export interface Explanation {
  readonly cost: number;
  /** Cogs that were ridden, in teeth, rising. */
  readonly cogs: readonly number[];
}

/** So often all rungs are gone through: by then hardly any changes. */
const ROUNDS = 4;
/** Rungs from this share on, from the lowest, begin on the large ring: starts from which two rings are tried. */
const SPLITS = [0.35, 0.6];
/** No drivetrain costs less than this for each ring beside the misfits, in nats: where the ring was ridden. */
const LEAST_BESIDE_MISFIT = 2.5;
/** Where the first start ends this much above what is worth it, in nats, the others are not tried. */
const HOPELESS = 6;

/**
 * Reads rungs as gears of these rings at this rollout: every rung takes the gear with which all together cost least, found by
 * changing one rung at a time, from the nearest gears on and, with two rings, from a ladder split between them.
 *
 * @param worthUpTo no search where it would surely cost more than this: `cost` is infinite
 */
export function explainRungs(
  rungs: readonly Rung[],
  { rings, logRollout }: { readonly rings: readonly number[]; readonly logRollout: number },
  worthUpTo = Number.POSITIVE_INFINITY,
): Explanation {
  const gears = rungs.map((rung) => rungGears(rung, rings, logRollout));
  const atLeast = gears.reduce((sum, some) => sum + Math.min(...some.map(({ misfit }) => misfit)), 0);
  let best: Explanation = { cost: Number.POSITIVE_INFINITY, cogs: [] };
  if (atLeast + LEAST_BESIDE_MISFIT * rings.length > worthUpTo) return best;
  const ridden = new RiddenGears(rungs, rings, logRollout);
  for (const split of rings.length === 1 ? [null] : [null, ...SPLITS]) {
    const start = gears.map((some, i) => nearest(some, split === null ? null : Number(i >= split * rungs.length)));
    const settled = settle(start, gears, ridden);
    if (settled.cost < best.cost) best = settled;
    if (best.cost > worthUpTo + HOPELESS) return best;
  }
  return best;
}

/** The gear that fits a rung best, on this ring where one does. */
function nearest(gears: readonly RungGear[], ring: number | null): RungGear {
  const on = gears.filter((gear) => gear.cog > 0 && (ring === null || gear.ring === ring));
  return (on.length > 0 ? on : gears).reduce((best, one) => (one.misfit < best.misfit ? one : best));
}

/** Changes one rung's gear at a time as long as that lowers the cost. */
function settle(start: readonly RungGear[], gears: readonly (readonly RungGear[])[], ridden: RiddenGears): Explanation {
  const reading = [...start];
  let cost = ridden.cost(reading);
  for (let round = 0, moved = true; moved && round < ROUNDS; round++) {
    moved = false;
    for (let rung = 0; rung < reading.length; rung++) {
      let kept = reading[rung];
      for (const gear of gears[rung]) {
        reading[rung] = gear;
        const changed = ridden.cost(reading);
        if (changed >= cost) continue;
        cost = changed;
        kept = gear;
        moved = true;
      }
      reading[rung] = kept;
    }
  }
  return { cost, cogs: riddenCogs(reading) };
}
