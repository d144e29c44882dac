import type { Bike } from '../../drivetrain/bike.ts';
import { weightedMedian } from '../../numeric/weighted-median.ts';
import type { Peak } from '../samples/robust-centre.ts';

/** Seconds of settled driving from which on a gear's development counts, and from which on it counts no more. */
const LEAST_S = 8;
const FULL_SAY_S = 60;
/** Fewer cogs than these lie on any ladder. */
const FEWEST_COGS = 4;

/** How well the ride's developments fit the bike's teeth if the chain stood so many cogs from the one asked for, all ride long. */
export interface CogsOff {
  /** 1 = one cog larger than asked for, -1 = one smaller. */
  readonly cogs: -1 | 0 | 1;
  /** Rollout that fits best then, mm. */
  readonly rolloutMm: number;
  /** Mean distance of the gears' developments from the teeth at that rollout, as a share. */
  readonly misfit: number;
}

/**
 * Sets the developments of a ride's gears against the teeth of the cogs asked for, and of their neighbours either side. Steps between
 * cogs are uneven, so the wrong ones fit worse whatever the wheel.
 *
 * @param peaks measured log developments, index `ring * cogs + cog`
 * @returns as asked for, one cog smaller, one larger; empty where fewer than four cogs were measured
 */
export function cogsOff(
  peaks: readonly Peak[],
  { chainrings, cassette }: Pick<Bike, 'chainrings' | 'cassette'>,
): CogsOff[] {
  const cogs = cassette.length;
  const gears = peaks
    .map(({ centre, count }, gear) => ({ centre, count, ring: Math.floor(gear / cogs), cog: gear % cogs }))
    .filter(({ count, cog }) => count >= LEAST_S && cog > 0 && cog < cogs - 1);
  if (new Set(gears.map(({ cog }) => cog)).size < FEWEST_COGS) return [];
  return ([0, -1, 1] as const).map((off) => {
    const entries = gears.map(({ centre, count, ring, cog }) => ({
      value: centre - Math.log(chainrings[ring] / cassette[cog + off]),
      weight: Math.min(count, FULL_SAY_S),
    }));
    const logRollout = weightedMedian(entries);
    const weight = entries.reduce((sum, entry) => sum + entry.weight, 0);
    const distance = entries.reduce((sum, entry) => sum + entry.weight * Math.abs(entry.value - logRollout), 0);
    return { cogs: off, rolloutMm: 1000 * Math.exp(logRollout), misfit: distance / weight };
  });
}
